"""Silhouettes of animals, side on, head to the left, in a box one unit long."""

from __future__ import annotations

from stockcheck.report.pictures.svg import group, node, number, path

#: Depth of the body over its length, by the table's body shapes.
_DEPTH = {"eel-like": 0.09, "elongated": 0.2, "fusiform": 0.3, "short-deep": 0.52}
_FORKED = {"eel-like": False, "elongated": True, "fusiform": True, "short-deep": False}


def _points(x: float, y: float, length: float, *pairs: tuple[float, float]) -> str:
    return " ".join(f"{number(x + px * length)} {number(y + py * length)}" for px, py in pairs)


def _fish(x: float, y: float, length: float, shape: str) -> str:
    d = _DEPTH.get(shape, _DEPTH["fusiform"]) / 2
    tail = d * (0.8 if shape == "short-deep" else 1.0)
    if shape == "eel-like":
        body = (
            "M" + _points(x, y, length, (0, 0))
            + "C" + _points(x, y, length, (0.05, -d * 1.3), (0.3, -d * 1.6), (0.55, -d * 0.5))
            + "S" + _points(x, y, length, (0.9, -d * 0.6), (1, 0))
            + "C" + _points(x, y, length, (0.9, d * 1.2), (0.7, d * 1.5), (0.5, d * 1.1))
            + "S" + _points(x, y, length, (0.05, d * 1.2), (0, 0)) + "Z"
        )  # fmt: skip
        return path(body) + _eye(x, y, length, 0.035, -d * 0.3)
    body = (
        "M" + _points(x, y, length, (0, d * 0.1))
        + "C" + _points(x, y, length, (0.1, -d * 0.9), (0.32, -d * 1.25), (0.52, -d * 0.85))
        + "S" + _points(x, y, length, (0.74, -d * 0.25), (0.8, -d * 0.22))
        + "L" + _points(x, y, length, (1, -tail))
        + "C" + _points(x, y, length, (0.95 if _FORKED[shape] else 1.02, -d * 0.3),
                        (0.95 if _FORKED[shape] else 1.02, d * 0.3), (1, tail))
        + "L" + _points(x, y, length, (0.8, d * 0.22))
        + "C" + _points(x, y, length, (0.66, d * 0.4), (0.5, d * 1.2), (0.32, d * 1.1))
        + "S" + _points(x, y, length, (0.08, d * 0.7), (0, d * 0.1)) + "Z"
    )  # fmt: skip
    fins = (
        "M" + _points(x, y, length, (0.36, -d * 0.95))
        + "C" + _points(x, y, length, (0.42, -d * 1.5), (0.5, -d * 1.7), (0.57, -d * 1.55))
        + "C" + _points(x, y, length, (0.56, -d * 1.1), (0.6, -d * 0.8), (0.63, -d * 0.5)) + "Z"
        + "M" + _points(x, y, length, (0.48, d * 0.8))
        + "C" + _points(x, y, length, (0.54, d * 1.3), (0.6, d * 1.5), (0.66, d * 1.35))
        + "C" + _points(x, y, length, (0.65, d * 0.9), (0.68, d * 0.6), (0.7, d * 0.3)) + "Z"
        + "M" + _points(x, y, length, (0.3, d * 0.9))
        + "C" + _points(x, y, length, (0.34, d * 1.4), (0.38, d * 1.5), (0.42, d * 1.45))
        + "L" + _points(x, y, length, (0.4, d * 0.85)) + "Z"
    )  # fmt: skip
    return path(body) + path(fins, fill_opacity=0.55, stroke="none") + _eye(x, y, length, 0.09, -d * 0.25)


def _eye(x: float, y: float, length: float, along: float, up: float) -> str:
    """A pale dot, left out where it would be too small to see."""
    if length < 22:
        return ""
    return node(
        "circle",
        cx=x + along * length,
        cy=y + up * length,
        r=min(max(length * 0.014, 0.9), 3.0),
        fill="var(--paper, #fff)",
        stroke="none",
    )


def _shrimp(x: float, y: float, length: float) -> str:
    body = (
        "M" + _points(x, y, length, (0.12, 0.02))
        + "C" + _points(x, y, length, (0.3, -0.16), (0.7, -0.2), (0.86, 0.05))
        + "L" + _points(x, y, length, (1, 0.16), (0.88, 0.19), (0.78, 0.08))
        + "C" + _points(x, y, length, (0.6, 0.0), (0.4, 0.1), (0.12, 0.06)) + "Z"
    )  # fmt: skip
    legs = "".join(
        "M"
        + _points(x, y, length, (0.32 + n * 0.09, 0.04))
        + "L"
        + _points(x, y, length, (0.27 + n * 0.09, 0.16))
        for n in range(5)
    )
    feelers = (
        "M" + _points(x, y, length, (0.13, 0.02)) + "Q" + _points(x, y, length, (0.05, -0.12), (-0.04, -0.1))
    )
    return path(body) + path(legs + feelers, fill="none", stroke_width=max(length * 0.015, 0.5))


def _clawed(x: float, y: float, length: float) -> str:
    claws = "".join(
        "M" + _points(x, y, length, (0.3, s * 0.04))
        + "C" + _points(x, y, length, (0.2, s * 0.16), (0.1, s * 0.2), (0, s * 0.1))
        + "C" + _points(x, y, length, (0.08, s * 0.12), (0.14, s * 0.08), (0.3, s * 0.0)) + "Z"
        for s in (-1, 1)
    )  # fmt: skip
    return _shrimp(x, y, length) + path(claws)


def _crab(x: float, y: float, length: float) -> str:
    shell = node(
        "ellipse",
        cx=x + length * 0.5,
        cy=float(y),
        rx=length * 0.26,
        ry=length * 0.17,
    )
    legs = "".join(
        "M" + _points(x, y, length, (0.5 + s * 0.2, 0.05 * n))
        + "Q" + _points(x, y, length, (0.5 + s * 0.42, -0.08 + 0.05 * n), (0.5 + s * 0.5, 0.14 + 0.04 * n))
        for s in (-1, 1)
        for n in range(3)
    )  # fmt: skip
    return shell + path(legs, fill="none", stroke_width=max(length * 0.03, 0.6))


def _snail(x: float, y: float, length: float) -> str:
    foot = (
        "M" + _points(x, y, length, (0.06, 0.28))
        + "C" + _points(x, y, length, (-0.02, 0.2), (0.0, 0.1), (0.12, 0.1))
        + "C" + _points(x, y, length, (0.25, 0.1), (0.4, 0.2), (1, 0.28)) + "Z"
    )  # fmt: skip
    horns = (
        "M" + _points(x, y, length, (0.06, 0.12)) + "L" + _points(x, y, length, (0.0, 0.0))
        + "M" + _points(x, y, length, (0.11, 0.11)) + "L" + _points(x, y, length, (0.1, -0.02))
    )  # fmt: skip
    centre_x, centre_y, round_ = x + length * 0.56, y - length * 0.02, length * 0.27
    shell = node("circle", cx=centre_x, cy=centre_y, r=round_)
    whorl = path(
        "M" + _points(centre_x, centre_y, round_, (-0.6, 0.3))
        + "a" + _points(0, 0, round_, (0.66, 0.66)) + " 0 1 1 " + _points(0, 0, round_, (0.9, 0.25))
        + "a" + _points(0, 0, round_, (0.34, 0.34)) + " 0 1 1 " + _points(0, 0, round_, (-0.3, -0.6)),
        fill="none",
        stroke="var(--paper, #fff)",
        stroke_width=max(length * 0.025, 0.6),
    )  # fmt: skip
    return path(foot) + path(horns, fill="none", stroke_width=max(length * 0.02, 0.6)) + shell + whorl


def _bivalve(x: float, y: float, length: float) -> str:
    shell = (
        "M" + _points(x, y, length, (0, 0.1))
        + "C" + _points(x, y, length, (0.05, -0.3), (0.7, -0.38), (1, 0.1))
        + "C" + _points(x, y, length, (0.8, 0.32), (0.2, 0.32), (0, 0.1)) + "Z"
    )  # fmt: skip
    return path(shell)


def _amphibian(x: float, y: float, length: float) -> str:
    body = (
        "M" + _points(x, y, length, (0, 0.02))
        + "C" + _points(x, y, length, (0.04, -0.14), (0.2, -0.2), (0.36, -0.16))
        + "C" + _points(x, y, length, (0.55, -0.12), (0.66, 0.0), (0.7, 0.1))
        + "C" + _points(x, y, length, (0.5, 0.2), (0.15, 0.18), (0, 0.02)) + "Z"
    )  # fmt: skip
    legs = (
        "M" + _points(x, y, length, (0.62, 0.08))
        + "L" + _points(x, y, length, (0.86, -0.12), (0.74, 0.22), (1, 0.26))
        + "M" + _points(x, y, length, (0.26, 0.12)) + "L" + _points(x, y, length, (0.14, 0.28), (0.06, 0.28))
    )  # fmt: skip
    limbs = path(
        legs, fill="none", stroke_width=length * 0.05, stroke_linejoin="round", stroke_linecap="round"
    )
    return path(body) + limbs + _eye(x, y, length, 0.1, -0.06)


def silhouette(x: float, y: float, length: float, kind: str, shape: str, **attributes: object) -> str:
    """An animal ``length`` wide whose snout is at ``x`` and whose middle is at height ``y``.

    Parameters
    ----------
    kind : str
        The table's kind (fish, shrimp, snail, ...).
    shape : str
        The table's body shape, for fish.
    """
    drawn = {
        "shrimp": _shrimp,
        "crayfish": _clawed,
        "crab": _crab,
        "snail": _snail,
        "bivalve": _bivalve,
        "amphibian": _amphibian,
    }.get(kind)
    inside = drawn(x, y, length) if drawn else _fish(x, y, length, shape if shape in _DEPTH else "fusiform")
    return group(inside, **attributes)
