"""Charts and shapes: geometry of the checked stitches, as drawings that :mod:`..render` writes out."""
