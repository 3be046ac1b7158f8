"""Pictures as SVG strings: one ink, one accent, hatching; pure functions without any outside state.

On a page the ink is the page's own text colour, so dark and light need no second picture; a picture to keep
carries its colours with it.  Each has a title and a description that say in words what is drawn.
"""

from stockcheck.report.pictures.svg import ON_PAGE, TO_KEEP, Ink

__all__ = ["ON_PAGE", "TO_KEEP", "Ink"]
