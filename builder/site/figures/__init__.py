"""Figures: SVG from numbers. Pure functions; classes only, so that the stylesheet alone gives colour."""
