"""An animal's adult size drawn to scale above a ruler that marks a hand's span."""

from __future__ import annotations

from stockcheck.report.pictures.creatures import silhouette
from stockcheck.report.pictures.scale import plain
from stockcheck.report.pictures.svg import ON_PAGE, Ink, hatching, line, path, picture, words
from stockcheck.report.text_catalogue import text

#: Thumb tip to little finger tip of a grown hand: common practice, no source.
HAND_SPAN_MM = 200.0
WIDTH = 380.0
_MARGIN = 12.0
#: Height over length of the silhouettes, fins included.
_TALL = {"eel-like": 0.16, "elongated": 0.32, "fusiform": 0.46, "short-deep": 0.92}


def _sizes(male_mm: float | None, female_mm: float | None) -> list[tuple[str, float]]:
    """One entry, or one a sex where the two differ by a tenth or more."""
    if male_mm and female_mm and abs(male_mm - female_mm) >= 0.1 * max(male_mm, female_mm):
        return [(text("size.male"), male_mm), (text("size.female"), female_mm)]
    known = [length for length in (male_mm, female_mm) if length]
    return [(text("size.adult"), max(known))] if known else []


def _ruler(y: float, reach: float, per_mm: float, ink: Ink) -> list[str]:
    """Centimetres along the foot, the hand's span hatched on it."""
    big = 10 if reach > 500 else 5
    drawn = [line(_MARGIN, y, WIDTH - _MARGIN, y, stroke=ink.ink)]
    for cm in range(0, int(reach / 10) + 1):
        if reach > 500 and cm % 5:
            continue
        x = _MARGIN + cm * 10 * per_mm
        drawn.append(line(x, y, x, y + (8 if cm % big == 0 else 4), stroke=ink.ink))
        if cm % big == 0:
            drawn.append(words(x, y + 20, str(cm), text_anchor="middle", font_size=11))
    span = HAND_SPAN_MM * per_mm
    drawn.append(hatching(_MARGIN, y - 9, span, 8, ink.ink, gap=5))
    drawn.append(
        path(f"M{_MARGIN} {y - 14:.1f}V{y:.1f}M{_MARGIN + span:.1f} {y - 14:.1f}V{y:.1f}", stroke=ink.ink)
    )
    drawn.append(words(_MARGIN + span / 2, y - 15, text("size.hand"), text_anchor="middle", font_size=11))
    return drawn


def size_picture(
    name: str,
    kind: str,
    shape: str,
    male_mm: float | None,
    female_mm: float | None,
    ink: Ink = ON_PAGE,
) -> str:
    """One silhouette, or one a sex, over a ruler in centimetres; empty where no length is known."""
    sizes = _sizes(male_mm, female_mm)
    if not sizes:
        return ""
    longest = max(length for _, length in sizes)
    reach = max(longest, HAND_SPAN_MM) * 1.02
    per_mm = (WIDTH - 2 * _MARGIN) / reach
    tallness = _TALL.get(shape, 0.46) if kind == "fish" else 0.62
    y, animals = 6.0, []
    for label, length in sizes:
        long = length * per_mm
        tall = max(long * tallness, 16.0)
        animals.append(
            silhouette(_MARGIN, y + tall / 2, long, kind, shape, fill=ink.accent, stroke=ink.accent)
        )
        said = f"{label} {plain(length / 10)} cm"
        if _MARGIN + long + 10 + len(said) * 6.5 < WIDTH:
            animals.append(words(_MARGIN + long + 10, y + tall / 2 + 4, said))
            y += tall + 6
        else:
            y += tall + 14
            animals.append(words(_MARGIN, y, said))
            y += 10
    y += 36
    lengths = ", ".join(f"{label} {plain(length / 10)} cm" for label, length in sizes)
    return picture(
        WIDTH,
        y + 26,
        text("size.title", name=name),
        text("size.description", lengths=lengths, hand=plain(HAND_SPAN_MM / 10)),
        *animals,
        *_ruler(y, reach, per_mm, ink),
        ink=ink,
        kind="size",
    )
