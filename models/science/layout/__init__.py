"""The same request gives the same lines; nothing mended is used unasked."""
