"""As-built drawing as DXF: named layers, real units, readable without colour."""
