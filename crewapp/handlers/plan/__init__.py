"""Handlers of the plan: lines, outlines, surfaces, bearings."""
