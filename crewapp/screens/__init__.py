"""The screens: each shows a face, and sends what the hand wants to the desk."""
