"""Pages of the checks made while rule files are loaded: what to avoid, what to prefer, and why."""

from types import MappingProxyType

NAMES = """An id that names nothing.

Avoid: `{fact: fit.mean_interferance, below: polymer_cup.bar_lo}`
Prefer: ids as `rules facts` and `rules limits` print them; most misspellings come with a suggestion.
Why: a rule about something that does not exist would never speak, and nobody would miss it."""

UNITS = """A number whose unit does not suit what it is compared with, or that has none.

Avoid: `{fact: bore.ovality, above: 25}`; `{fact: bore.ovality, above: 3 MPa}`
Prefer: `{fact: bore.ovality, above: 25 um}`, or the id of a limit of the same kind.
Why: 25 could be micrometres or hundredths; a wrong guess is a factor of ten on a fit."""

VALUES = """A value that the fact can never take.

Avoid: `{fact: part.material, equals: wood}`; `{fact: bore.taper, above: 40 m}`
Prefer: a word from the list of the fact, a number within its range (`rules show FACT`).
Why: such a comparison decides nothing, and reads as if it did."""

SUBJECT = """A stance, a fact or an action that does not suit what the rule is about.

Avoid: a rule about the frame that asks a fact known for each side, or that says `rules_out`
Prefer: frame and side with stops_work, asks_first or advises_against; remedies with rules_out, asks_first,
advises_against or supports; a cause with supports or advises_against; `asks_first` always with an `action`.
Why: what is known for each option cannot be answered for the whole frame, and a question without a thing to do
leaves the bench standing."""

EXCUSE = """`if_undecided: caution` where it may not stand.

Avoid: `if_undecided: caution` on a fact that a reading, a look or a test at the bench could settle
Prefer: leave it out; the bench is then told what to measure.
Why: unknown never counts as fine. Only what no bench could settle may be passed over with a caution, never in a
sealed rule and never by a house."""

PLACEHOLDER = """A name in curly brackets in `because` that the rule does not use.

Avoid: `because: "Interference {fit.pressure} is too small."` in a rule that asks `fit.mean_interference`
Prefer: only facts and limits of the rule's own condition.
Why: the sentence must print the numbers that decided."""

EXAMPLE = """An example that does not give what it expects, or an outcome without an example.

Avoid: examples that only show when the rule holds
Prefer: at least one example that holds and one that fails, close to the limit on each side.
Why: examples are run whenever the rules are loaded, so a rule cannot be turned round by accident."""

TWICE = """An id that stands twice.

Avoid: two limits or rules of one id, in one file or in two
Prefer: one of them; to change a shipped one, write a house act.
Why: which of the two counts would depend on the order of files."""

SILENT = """A remedy about which the book is silent.

Avoid: a remedy without a rule that supports it, or without one that could rule it out
Prefer: at least one of each.
Why: silence is never consent; what nobody could rule out would always be allowed."""

MISSING = """Something that formulas read by name is missing.

Avoid: taking out a limit, material or default spread because no rule names it
Prefer: leave it; `rules show ID` tells what it is for.
Why: the formulas would have nothing to calculate with."""

SEALED = """A sealed rule is missing or is not as it was released.

Avoid: editing a rule that protects people, or a limit, word list or remedy it reaches
Prefer: a stricter rule beside it, under `house.`; a changed safeguard is a matter for the next release.
Why: these rules stop work on frames somebody would ride. Nothing in a file, option or variable turns them off."""

BETWEEN = """`between` with its ends exchanged.

Avoid: `between: [40 um, 20 um]`
Prefer: `between: [20 um, 40 um]`; both ends belong to it.
Why: nothing lies between them as written."""

GAP = """A grid with a gap: a combination of its inputs that lies in no row.

Avoid: rows up to 10 um and from 12 um on, or rows for three of the four words of an input
Prefer: rows that meet at one limit (`to` is not included, `from` is); leave an input out of a row where it may be
anything.
Why: on such a frame the grid would have no answer, and nobody would have decided that."""

OVERLAP = """Two rows of a grid that hold at the same time.

Avoid: one row up to 12 um and another one from 10 um on, with different answers
Prefer: rows that meet at one limit.
Why: which of the two counts would depend on their order, and order never counts here."""

GRID = """A grid that cannot be meant as it stands.

Avoid: an answer that is no fact for grids, two grids for one answer, an input twice, an input that a grid answers
itself, a range whose ends are exchanged
Prefer: `answers` with one of the facts marked `the row of the grid` in `rules facts`, two to four inputs, `from` below
`to`.
Why: a grid answers one question from what is known without it."""

PAGES = MappingProxyType({
    "rules.grid-answer": GRID,
    "rules.grid-empty": GRID,
    "rules.grid-gap": GAP,
    "rules.grid-input": GRID,
    "rules.grid-overlap": OVERLAP,
    "rules.unanswered-fact": GRID,
    "rules.action-missing": SUBJECT,
    "rules.between": BETWEEN,
    "rules.comparison": VALUES,
    "rules.conformity": SUBJECT,
    "rules.duplicate-id": TWICE,
    "rules.example": EXAMPLE,
    "rules.example-missing": EXAMPLE,
    "rules.excuse": EXCUSE,
    "rules.missing": MISSING,
    "rules.not-a-number": UNITS,
    "rules.not-asked": EXAMPLE,
    "rules.placeholder": PLACEHOLDER,
    "rules.range": VALUES,
    "rules.reserved-id": TWICE,
    "rules.scope": SUBJECT,
    "rules.seal-changed": SEALED,
    "rules.seal-missing": SEALED,
    "rules.silent-remedy": SILENT,
    "rules.stance": SUBJECT,
    "rules.unit": UNITS,
    "rules.unit-missing": UNITS,
    "rules.word": VALUES,
    **{f"rules.unknown-{each}": NAMES for each in (
        "action", "bearing", "caution", "cause", "deferral", "fact", "limit", "material", "part", "remedy",
        "standard", "word")},
})  # fmt: skip
