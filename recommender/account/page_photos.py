"""Photographs of the case, scaled and set into the page; those that cannot be are listed as missing."""

import base64
import io
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from PIL import Image, ImageOps

from recommender.account.page_matter import Matter

WIDEST = 1100
LARGEST_BYTES = 40_000_000
MOST_PIXELS = 80_000_000
KINDS = ("JPEG", "PNG", "WEBP", "TIFF", "BMP")
UNUSABLE = "this is no picture that can be set in"


class Photo(NamedTuple):
    """A photograph by its id: its caption, and either its address within the page or why it is missing."""

    id: str
    file: str
    caption: str
    source: str
    missing: str
    width: int
    height: int


def photos(matter: Matter) -> list[Photo]:
    """Return every photograph the case names, in its order."""
    return list(_photos(matter))


def _photos(matter: Matter) -> Iterator[Photo]:
    for name, each in matter.case.identity.photos.items():
        found = _inside(matter.folder, each.file)
        missing = "it lies outside the folder of the case" if found is None else _why_missing(found)
        source, (width, height) = ("", (0, 0)) if missing or found is None else _scaled(found)
        if not missing and not source:
            missing = UNUSABLE
        yield Photo(name, each.file, each.caption, source, missing, width, height)


def _inside(folder: Path, file: str) -> Path | None:
    """Return where a photograph lies, None when that is outside the folder of the case, also by way of a link."""
    try:
        root = folder.resolve()
        found = (root / file).resolve()
    except (OSError, ValueError, RuntimeError):
        return None
    return found if found.is_relative_to(root) and found != root else None


def _why_missing(found: Path) -> str:
    try:
        if not found.is_file():
            return "there is no such file"
        return "the file is too large" if found.stat().st_size > LARGEST_BYTES else ""
    except OSError:
        return "the file cannot be opened"


def _scaled(found: Path) -> tuple[str, tuple[int, int]]:
    """Return a photograph at page size as an address, without anything its camera noted; empty when it is none."""
    try:
        with Image.open(found, formats=KINDS) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                return "", (0, 0)
            opened.draft("RGB", (WIDEST, WIDEST))
            upright = ImageOps.exif_transpose(opened).convert("RGB")
        upright.thumbnail((WIDEST, WIDEST))
        out = io.BytesIO()
        upright.save(out, "JPEG", quality=82)
    except Exception:  # a decoder given a broken picture raises whatever it stumbles over
        return "", (0, 0)
    return "data:image/jpeg;base64," + base64.b64encode(out.getvalue()).decode("ascii"), upright.size
