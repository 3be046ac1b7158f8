"""The few strokes that every picture is made of.

No ``id`` anywhere, so that any number of pictures can share a page: hatching is drawn as lines, not as a
pattern, and the title of a picture is its own child.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape


@dataclass(frozen=True, slots=True)
class Ink:
    """The colours of a picture; ``paper`` is ``none`` where the page shows through."""

    ink: str
    accent: str
    paper: str

    def paper_or(self, usual: str) -> str:
        """The paper's colour, to leave gaps in a bar; ``usual`` where the page shows through."""
        return usual if self.paper == "none" else self.paper


#: Colours come from the page (and so from the reader's choice of dark or light).
ON_PAGE = Ink("currentColor", "var(--accent, #0b6478)", "none")
#: Colours travel with the file.
TO_KEEP = Ink("#20282c", "#0b6478", "#ffffff")

FONT = "system-ui, -apple-system, 'Segoe UI', 'Liberation Sans', sans-serif"


def number(value: float) -> str:
    """A coordinate with at most one decimal."""
    return f"{value:.1f}".removesuffix(".0")


def node(name: str, *children: str, **attributes: object) -> str:
    """One element; underscores in attribute names become hyphens, ``None`` leaves an attribute out."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{number(v) if isinstance(v, float) else escape(str(v))}"'
        for key, v in attributes.items()
        if v is not None
    )
    return f"<{name}{written}>{''.join(children)}</{name}>" if children else f"<{name}{written}/>"


def words(x: float, y: float, content: str, **attributes: object) -> str:
    """Text at a point (its baseline), escaped."""
    return node("text", escape(content), x=float(x), y=float(y), **attributes)


#: Mean width of a letter over the size of its font, wide enough for bold ones.
_LETTER = 0.58


def fitted(x: float, y: float, content: str, most: float, size: float, **attributes: object) -> str:
    """Text that is drawn together where it would be wider than ``most``."""
    if len(content) * _LETTER * size > most:
        attributes |= {"textLength": most, "lengthAdjust": "spacingAndGlyphs"}
    return words(x, y, content, font_size=size, **attributes)


def haloed(x: float, y: float, content: str, ink: Ink, **attributes: object) -> str:
    """Text that stays legible on top of lines, by a rim of paper around it."""
    rim = ink.paper_or("var(--paper, #fff)")
    return words(x, y, content, stroke=rim, stroke_width=4, paint_order="stroke", **attributes)


def line(x1: float, y1: float, x2: float, y2: float, **attributes: object) -> str:
    return node("line", x1=float(x1), y1=float(y1), x2=float(x2), y2=float(y2), **attributes)


def box(x: float, y: float, width: float, height: float, **attributes: object) -> str:
    return node(
        "rect", x=float(x), y=float(y), width=float(max(width, 0)), height=float(max(height, 0)), **attributes
    )


def path(commands: str, **attributes: object) -> str:
    return node("path", d=commands, **attributes)


def polyline(points: list[tuple[float, float]], **attributes: object) -> str:
    return path("M" + "L".join(f"{number(x)} {number(y)}" for x, y in points), **attributes)


def title(content: str) -> str:
    return f"<title>{escape(content)}</title>"


def group(*children: str, **attributes: object) -> str:
    return node("g", *children, **attributes)


def hatching(x: float, y: float, width: float, height: float, colour: str, gap: float = 6.0) -> str:
    """Slanting lines inside a rectangle."""
    if width <= 0 or height <= 0:
        return ""
    strokes = []
    offset = gap / 2
    while offset < width + height:
        # a line x + y = offset, from the rectangle's top or right edge to its left or bottom edge
        start_x, start_y = (offset, 0.0) if offset <= width else (width, offset - width)
        end_x, end_y = (0.0, offset) if offset <= height else (offset - height, height)
        strokes.append(
            f"M{number(x + start_x)} {number(y + start_y)}L{number(x + end_x)} {number(y + end_y)}"
        )
        offset += gap
    return path("".join(strokes), stroke=colour, stroke_width=1, fill="none")


def picture(
    width: float, height: float, name: str, description: str, *body: str, ink: Ink = ON_PAGE, kind: str = ""
) -> str:
    """A whole picture with its text alternatives."""
    ground = "" if ink.paper == "none" else box(0, 0, width, height, fill=ink.paper)
    return node(
        "svg",
        title(name),
        f"<desc>{escape(description)}</desc>",
        ground,
        *body,
        xmlns="http://www.w3.org/2000/svg",
        role="img",
        class_=f"picture {kind}".strip(),
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=float(width),
        height=float(height),
        font_family=FONT,
        font_size=12,
        fill=ink.ink,
        color=None if ink.ink == "currentColor" else ink.ink,
    )
