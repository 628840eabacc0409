"""Reading a bench sheet that was filled in: every bad cell by line and column, nothing lost."""

from collections.abc import Callable, Mapping
from pathlib import Path as FilePath
from typing import NamedTuple, TypeVar

from recommender.bench import checks_of_readings as checks
from recommender.bench.frame import SideName
from recommender.bench.load import LoadedCase
from recommender.bench.pieces import seat_depths
from recommender.bench.readings import NUMBER
from recommender.bench.sheet_blocks import Blocks, blocks_of, span_pairs
from recommender.bench.sheet_cells import Cell, records, separator_of
from recommender.bench.sheets import COLUMNS, ENDS, MORE, STRUCK, BenchSheet, End, SheetRow
from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed, Level, flaw, too_many
from recommender.ground.place import whole_file
from recommender.ground.quantity import DECIMAL_COMMA, parse
from recommender.ground.suggest import did_you_mean
from recommender.reading.files import read_text_file

SIDES: Mapping[str, SideName] = {"drive": "drive", "non_drive": "non_drive"}
END_NAMES: Mapping[str, End] = {end: end for end in ENDS}
HEADINGS = ("case", "unit", "how")
TURN, READING = COLUMNS.index("turn_deg"), COLUMNS.index("reading_mm")
FULL_TURN = 360.0
MOST_ROWS = 2 * checks.MOST_READINGS
T = TypeVar("T")


class ImportedSheet(NamedTuple):
    """A sheet that can be used, its readings as blocks of a case, and what was odd about it without stopping it."""

    sheet: BenchSheet
    blocks: Blocks
    warnings: tuple[Flaw, ...]


class _Bad(Exception):
    """Raised for a cell that cannot be used, with what to do."""

    def __init__(self, message: str, advice: str) -> None:
        super().__init__(message)
        self.message, self.advice = message, advice


def read_sheet(path: FilePath | str, loaded: LoadedCase | None = None) -> ImportedSheet:
    """Return the sheet in a CSV file; raises Flawed with every flaw found, at the line and column of its cell.

    With a case the sheet has to be of that case and its instruments; their ranges and the depths of the seats are
    checked too.
    """
    return sheet_in(read_text_file(path), str(path), loaded)


def sheet_in(text: str, file: str, loaded: LoadedCase | None = None) -> ImportedSheet:
    """Return the sheet in a CSV text; raises Flawed as `read_sheet` does."""
    reader = _Reader(text, file, loaded)
    reader.read()
    reader.raise_flaws()
    sheet = BenchSheet(reader.case, tuple(reader.rows))
    blocks = blocks_of(sheet)
    reader.check(blocks)
    reader.raise_flaws()
    return ImportedSheet(sheet, blocks, tuple(sorted(reader.flaws, key=Flaw.sort_key)))


class _Reader:
    """Reads one text cell by cell and keeps every flaw."""

    def __init__(self, text: str, file: str, loaded: LoadedCase | None) -> None:
        self.text, self.file, self.loaded = text, file, loaded
        self.case = ""
        self.rows: list[SheetRow] = []
        self.cells: list[tuple[Cell, ...]] = []
        self.flaws: list[Flaw] = []

    def read(self) -> None:
        """Read headings, then rows."""
        lines = records(self.text, self.file, separator_of(self.text, COLUMNS))
        for cells in lines:
            if cells[0].text.casefold() == COLUMNS[0]:
                self._names(cells)
                break
            self._heading(cells)
            if len(self.flaws) > MOST_FLAWS:
                break
        else:
            self.flaws.append(flaw("sheet.columns", whole_file(self.file), self.text, "the names of the columns are"
                                   " missing", f"Write the line {','.join(COLUMNS)} above the readings."))
        for cells in lines:
            if len(self.flaws) > MOST_FLAWS:
                return
            if len(self.rows) >= MOST_ROWS:
                self._flaw("sheet.too-many", cells[0], f"more than {MOST_ROWS} readings",
                           "No more are weighed together; keep those of the plan.")
                return
            self._row(cells)
        self._ends()

    def check(self, blocks: Blocks) -> None:
        """Check the readings as those of a case are checked."""
        data = {**(self.loaded.document.data if self.loaded else {})}
        mine = data.get("sides", {}) if self.loaded else {}
        data["sides"] = {side: {**mine.get(side, {}), "readings": found} for side, found in blocks.sides.items()}
        for check in (checks.values, checks.spans):
            for each in check(data):
                row = blocks.rows.get(each.path, blocks.rows.get((*each.path, 0)))
                if row is not None:
                    self._flaw(each.check, self.cells[row][READING], each.message, each.advice, each.level)
        self._depths(data)

    def raise_flaws(self) -> None:
        """Raise Flawed if anything found stops the sheet."""
        if any(each.level == "error" for each in self.flaws):
            found = sorted(self.flaws, key=lambda each: each.level != "error")
            raise Flawed(found if len(found) <= MOST_FLAWS else [*found[:MOST_FLAWS], too_many(self.file)])

    def _flaw(self, check: str, cell: Cell, message: str, advice: str, level: Level = "error") -> None:
        self.flaws.append(flaw(check, cell.place, self.text, message, advice, level))

    def _names(self, cells: tuple[Cell, ...]) -> None:
        names = [cell.text.casefold() for cell in cells]
        while len(names) > len(COLUMNS) and not names[-1]:
            names.pop()
        if tuple(names) != COLUMNS:
            self._flaw("sheet.columns", cells[0], "these are not the columns of a bench sheet",
                       f"Keep them as {', '.join(COLUMNS)}.")

    def _heading(self, cells: tuple[Cell, ...]) -> None:
        key, value = cells[0].text.casefold(), cells[1] if len(cells) > 1 else cells[0]
        if key not in HEADINGS:
            self._flaw("sheet.heading", cells[0], f"unknown heading `{cells[0].text}`", did_you_mean(key, HEADINGS))
        if key == "case":
            self.case = value.text if len(cells) > 1 else ""
            wanted = self.loaded.case.case if self.loaded else self.case
            if self.case != wanted:
                self._flaw("sheet.case", value, f"this sheet is of case `{self.case}`, not of `{wanted}`",
                           "Import it into its own case.")
        if key == "unit" and value.text != "mm":
            self._flaw("sheet.unit", value, f"a sheet is read in mm, not in `{value.text}`",
                       "Convert the readings and write mm.")

    def _row(self, cells: tuple[Cell, ...]) -> None:
        if len(cells) < len(COLUMNS):
            cells = (*cells, *(Cell("", cells[-1].place) for _ in range(len(COLUMNS) - len(cells))))
        for extra in cells[len(COLUMNS):]:
            if extra.text:
                self._flaw("sheet.cells", extra, "this cell is beyond the last column",
                           "A decimal comma or an unquoted comma in a note may have split a cell.")
        side, instrument = self._cell(cells[0], _side), self._cell(cells[1], self._instrument)
        depth, turn, reading = self._cell(cells[2], _number), self._cell(cells[3], _turn), self._cell(cells[4], _number)
        struck, note = _strike(cells[len(COLUMNS) - 1].text)
        if bool(cells[2].text) != bool(cells[TURN].text) and cells[TURN].text.casefold() not in END_NAMES:
            self._flaw("sheet.place", cells[TURN], "depth and turn go together",
                       "Write both, or neither where nobody noted them; `smallest` and `largest` need no turn.")
        self.cells.append(cells)
        self.rows.append(SheetRow(side or "drive", instrument or "", depth, turn, reading, struck, note))

    def _cell(self, cell: Cell, take: Callable[[str], T]) -> T | None:
        try:
            return take(cell.text)
        except _Bad as bad:
            self._flaw("sheet.cell", cell, bad.message, bad.advice)
            return None

    def _instrument(self, text: str) -> str:
        known = [each.id for each in self.loaded.case.bench.instruments] if self.loaded else [text]
        if not text or text not in known:
            raise _Bad(f"`{text}` is no instrument of this case", did_you_mean(text, known or ["none"]))
        return text

    def _ends(self) -> None:
        """Note every smallest without largest, and the other way round."""
        groups: dict[tuple[str, str], list[int]] = {}
        for index, row in enumerate(self.rows):
            if isinstance(row.turn, str) and row.reading is not None:
                groups.setdefault((row.side, row.instrument), []).append(index)
        for places in groups.values():
            paired = {places[each] for pair in span_pairs([self.rows[place] for place in places]) for each in pair}
            for alone in (place for place in places if place not in paired):
                self._flaw("sheet.span", self.cells[alone][TURN], f"`{self.rows[alone].turn}` stands here alone",
                           "A full turn has both: write smallest and largest of the same depth.")

    def _depths(self, data: Mapping[str, object]) -> None:
        seats = seat_depths(data)
        for row, cells in zip(self.rows, self.cells, strict=True):
            seat = seats.get(row.side)
            if seat is not None and row.depth is not None and row.depth > seat:
                self._flaw("case.depth", cells[2], f"depth {cells[2].text} mm lies beyond the seat, {seat:g} mm deep",
                           "Depths count from this side's face; check depth and seat_depth.")


def _side(text: str) -> SideName:
    if text.casefold() not in SIDES:
        raise _Bad(f"`{text}` is no side", did_you_mean(text, SIDES))
    return SIDES[text.casefold()]


def _turn(text: str) -> float | End | None:
    if text.casefold() in END_NAMES:
        return END_NAMES[text.casefold()]
    turn = _number(text)
    if turn is not None and turn >= FULL_TURN:
        raise _Bad(f"{text} degrees is more than a full turn", "Turns run from 0 to less than 360.")
    return turn


def _number(text: str) -> float | None:
    if not text:
        return None
    if NUMBER.fullmatch(text):
        return float(text)
    if DECIMAL_COMMA.fullmatch(text):
        raise _Bad(f"`{text}` has a decimal comma", f"Write {text.replace(',', '.')}.")
    try:
        unit = parse(text).unit
    except ValueError as refused:
        raise _Bad(f"`{text}` is not a plain number", f"{str(refused).capitalize()}.") from None
    if unit == "1":
        raise _Bad(f"`{text}` is not a plain number", "Write digits and a point only, without sign or exponent.")
    raise _Bad(f"`{text}` has a unit in it", "The unit stands in the name of the column; write the number alone.")


def _strike(text: str) -> tuple[str, str]:
    """Return the reason a reading was struck and the rest of its note."""
    if not text.casefold().startswith(STRUCK):
        return "", text
    reason, _, note = text[len(STRUCK):].partition(MORE)
    return reason.strip() or "no reason given", note.strip()
