"""Gather every text of the program for its translators, and compile the translations.

    python -m tests.make_translations

Texts are found where the sources mark them: the first string of `say` and `tr`, every string of a
table inside `texts`, label and help of `quantity` and `choice`, named keys of some resources.
What is new in a `.ts` file is marked unfinished, what has vanished is dropped, and the `.qm` file
that the program loads is made by Qt's own compiler.
"""

from __future__ import annotations

import ast
import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path

import PySide6

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / "resources" / "languages"
CONTEXT = "gloaming"
Message = tuple[str, str]
"""English text, and its meaning where a word has two."""
_NEEDS_WORDS = re.compile(r"[^\W\d_]|\d\.\d")
"""A letter, or a decimal point."""
_SPEC_ARGUMENTS = {"quantity": (1, 5), "choice": (1, 2)}
_MARK = re.compile(rf"\b({'|'.join(('say', 'tr', 'texts', *_SPEC_ARGUMENTS))})\s*\(")
RESOURCES: dict[str, frozenset[str]] = {
    "help/quantities.json": frozenset(
        {"what", "typical", "read", "basis", "title", "text"}
    ),
    "parts/stores.json": frozenset({"title"}),
    "places/places.json": frozenset({"source"}),
}
"""Files below resources whose values under these keys are shown to a person."""


def messages_of(source: str) -> Iterator[Message]:
    """Every marked text of one Python source."""
    if not _MARK.search(source):  # most files have none, and parsing takes its time
        return
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        if name in ("say", "tr"):
            meanings = [str(a.value) for a in node.args[1:] if isinstance(a, ast.Constant)]
            for text in _either(node.args[0] if node.args else None):
                yield text, meanings[0] if meanings else ""
        elif name == "texts":
            for argument in node.args:
                yield from ((text, "") for text in _strings(argument))
        elif name in _SPEC_ARGUMENTS:
            for at in _SPEC_ARGUMENTS[name]:
                if at < len(node.args) and isinstance(node.args[at], ast.Constant):
                    yield str(node.args[at].value), ""  # type: ignore[attr-defined]


def _either(node: ast.AST | None) -> Iterator[str]:
    """A text, or both of a choice of texts."""
    if isinstance(node, ast.Constant):
        yield str(node.value)
    elif isinstance(node, ast.IfExp):
        yield from _either(node.body)
        yield from _either(node.orelse)


def _strings(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.Dict):
        for value in node.values:
            yield from _strings(value)
    elif isinstance(node, (ast.Tuple, ast.List)):
        for item in node.elts:
            yield from _strings(item)


def _values(data: object, keys: frozenset[str]) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            if key in keys and isinstance(value, str):
                yield value
            elif key in keys and isinstance(value, list):
                yield from (item for item in value if isinstance(item, str))
            else:
                yield from _values(value, keys)
    elif isinstance(data, list):
        for item in data:
            yield from _values(item, keys)


def gathered() -> list[Message]:
    """Every text of the program, each once, in the order of the files."""
    found: dict[Message, None] = {}
    for path in sorted((ROOT / "explorer").rglob("*.py")):
        found.update(dict.fromkeys(messages_of(path.read_text(encoding="utf-8"))))
    for name, keys in RESOURCES.items():
        data = json.loads((ROOT / "resources" / name).read_text(encoding="utf-8"))
        found.update(dict.fromkeys((text, "") for text in _values(data, keys)))
    return [message for message in found if _NEEDS_WORDS.search(message[0])]


def translations(path: Path) -> dict[Message, str]:
    """The finished translations of a `.ts` file."""
    found = {}
    for element in ET.parse(path).iter("message"):
        translation = element.find("translation")
        if translation is not None and translation.get("type") is None and translation.text:
            key = (element.findtext("source") or "", element.findtext("comment") or "")
            found[key] = translation.text
    return found


def write(path: Path, code: str, known: dict[Message, str]) -> None:
    """A `.ts` file with every text of the program, translated where that is known."""
    root = ET.Element("TS", version="2.1", language=code, sourcelanguage="en")
    context = ET.SubElement(root, "context")
    ET.SubElement(context, "name").text = CONTEXT
    for source, meaning in gathered():
        message = ET.SubElement(context, "message")
        ET.SubElement(message, "source").text = source
        if meaning:
            ET.SubElement(message, "comment").text = meaning
        translation = ET.SubElement(message, "translation")
        if (source, meaning) in known:
            translation.text = known[source, meaning]
        else:
            translation.set("type", "unfinished")
    ET.indent(root, " ")
    body = ET.tostring(root, encoding="unicode")
    path.write_text(f'<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE TS>\n{body}\n', "utf-8")


def compile_file(path: Path) -> None:
    """Make the `.qm` file beside a `.ts` file with the compiler that Qt brings."""
    compiler = Path(PySide6.__file__).parent / "lrelease"
    target = path.with_suffix(".qm")
    subprocess.run([compiler, "-silent", path, "-qm", target], check=True)


def main() -> None:
    """Bring every translation up to date."""
    for path in sorted(FOLDER.glob("*.ts")):
        code = path.stem.rpartition("_")[2]
        known = translations(path)
        write(path, code, known)
        compile_file(path)
        missing = [m for m in gathered() if m not in known]
        print(f"{path.name}: {len(known)} texts, {len(missing)} without a translation")
        for source, meaning in missing:
            print("  ", json.dumps([source, meaning], ensure_ascii=False))


if __name__ == "__main__":
    sys.exit(main())
