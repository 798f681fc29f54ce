"""Draw the map of the house in DEVELOPERS.md from the imports: python -m tests.draw_house

Each row is a layer, from what a person starts down to the physics, with the rooms in it. An arrow
from a row to one below says that modules there import from it, the thicker the more of them. Run it
after a room was added or moved.
"""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import explorer

PACKAGE = Path(explorer.__file__).parent
PICTURE = PACKAGE.parent / "resources" / "pictures" / "house.svg"
LAYERS = (
    "cli", "app", "stand", "widgets", "state", "meters", "files",
    "words", "advice", "scenario", "engine", "physics",
)  # fmt: skip
"""From the top, as the import contracts in pyproject.toml order them."""
WIDTH, LEFT, LINE = 1180, 190, 21
LETTER = 6.4
"""Width of a letter at 12 px, a little more than most fonts need."""
STYLE = (
    "text{font:12px sans-serif;fill:#222}.layer{font-weight:bold;font-size:14px}"
    ".row{fill:#f1f1ee}.room{fill:#fff;stroke:#c9c9c2}"
    "path{fill:none;stroke:#3d6b8c;stroke-opacity:.5}"
)


def rooms(layer: str) -> list[str]:
    """Modules of a layer, and with a stroke behind the name the folders within it."""
    if (PACKAGE / f"{layer}.py").exists():
        return [layer]
    entries = sorted((PACKAGE / layer).iterdir())
    folders = [f"{path.name}/" for path in entries if (path / "__init__.py").exists()]
    return folders + [p.stem for p in entries if p.suffix == ".py" and p.stem != "__init__"]


def arrows() -> Counter[tuple[str, str]]:
    """How many modules of one layer import from another."""
    counted: Counter[tuple[str, str]] = Counter()
    for path in sorted(PACKAGE.rglob("*.py")):
        source = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        named = {
            (node.module or "").split(".")[1]
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("explorer.")
        }
        counted.update((source, target) for target in named if target != source)
    return counted


def drawn() -> str:
    """The map as SVG."""
    parts, middle, y = [], {}, 12
    for layer in LAYERS:
        chips, bottom = _chips(rooms(layer), y + 26)
        middle[layer] = (y + bottom) // 2
        parts.append(
            f'<rect x="{LEFT - 10}" y="{y}" width="{WIDTH - LEFT}" height="{bottom - y}" rx="6"'
            f' class="row"/>\n<text x="{LEFT}" y="{y + 17}" class="layer">{layer}</text>\n{chips}'
        )
        y = bottom + 10
    for (source, target), count in sorted(arrows().items()):
        if source in middle and target in middle:
            parts.append(_arrow(middle[source], middle[target], count))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{y}" '
        f'viewBox="0 0 {WIDTH} {y}" role="img" aria-label="Layers and rooms of the program">\n'
        f'<style>{STYLE}</style>\n<rect width="{WIDTH}" height="{y}" fill="#fff"/>\n'
        + "\n".join(parts)
        + "\n</svg>\n"
    )


def _chips(names: list[str], y: int) -> tuple[str, int]:
    """The rooms of a layer in as many lines as they need, and where the row ends."""
    x, parts = LEFT, []
    for name in names:
        wide = round(len(name) * LETTER) + 12
        if x + wide > WIDTH - 18:
            x, y = LEFT, y + LINE + 4
        parts.append(
            f'<rect x="{x}" y="{y}" width="{wide}" height="{LINE}" rx="4" class="room"/>'
            f'<text x="{x + wide // 2}" y="{y + 15}" text-anchor="middle">{name}</text>'
        )
        x += wide + 5
    return "\n".join(parts), y + LINE + 8


def _arrow(start: int, end: int, count: int) -> str:
    """A bow at the left from a layer to one that it imports, with its head at the lower one."""
    edge, wide = LEFT - 12, min(6.0, 0.8 + 0.08 * count)
    bow = round(edge - min(165.0, 26 + 0.2 * abs(end - start)))
    return (
        f'<path d="M{edge} {start}C{bow} {start} {bow} {end} {edge - 6} {end}" '
        f'stroke-width="{wide:.1f}"/><path d="M{edge - 7} {end - 4}l7 4l-7 4"/>'
    )


if __name__ == "__main__":
    PICTURE.write_text(drawn(), encoding="utf-8")
