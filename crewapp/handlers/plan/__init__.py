"""What a user can do to the plan: lines, outlines, surfaces, bearings."""
