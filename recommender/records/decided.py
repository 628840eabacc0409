"""What was decided and on which facts, read from a record without its trace, for whoever goes through many records."""

import json
from pathlib import Path

from recommender.reading.files import read_bytes
from recommender.records.record import FORMAT, Content, id_of
from recommender.records.store import LARGEST_BYTES, NAME, SUFFIX, read_record

# Keys stand sorted in a record, and a quotation mark inside a text is written \", so only keys are found by these.
TRACE, AFTER = b',"trace":{', b'},"book":{'


def read_decided(path: Path) -> Content:
    """Return the content of a record with an empty trace; raises Flawed as `read_record` does.

    The whole file is checked against its name all the same. A record in any other form is read in full.
    """
    raw = read_bytes(path, largest=LARGEST_BYTES)
    short = _without_trace(raw)
    named = NAME.fullmatch(path.stem)
    if short is None or named is None or path.suffix != SUFFIX or id_of(named["case"], raw) != path.stem:
        return read_record(path).content
    data = json.loads(short)
    if data.get("format") != FORMAT or data["advice"]["case"]["id"] != named["case"]:
        return read_record(path).content
    return Content.model_validate(data)


def _without_trace(raw: bytes) -> bytes | None:
    start, end = raw.find(TRACE), raw.rfind(AFTER)
    if not 0 <= start < end:
        return None
    return raw[:start] + TRACE + b"}" + raw[end:]
