"""Pages of the checks made on house acts, and of those made on any file."""

from types import MappingProxyType

UNKNOWN = """A house act that matches nothing.

Avoid: `change: polymer_cup.bar_lo`
Prefer: the id of a shipped limit or rule, as `rules limits` and `rules show` print it.
Why: an act that hits nothing changes nothing, and the shop believes that it does."""

STALE = """A house act on a shipped value that has moved.

Avoid: leaving `was: 0 um` after the shipped limit became 2 um
Prefer: look at the change again, then write today's value under `was`, or take the act out.
Why: what was stricter than the old value may be milder than the new one."""

FORBIDDEN = """A house act that weakens what may only be tightened.

Avoid: `to: -5 um` for a limit whose safe side is `higher`
Prefer: move it to its safe side; `rules show LIMIT` tells which side that is and what a shop may do.
Why: a milder limit lets through what the shipped rules stop. Limits that hold up a sealed rule, and those marked
`tighten` or `nothing`, are never made milder by a shop."""

SEALED = """A house act on a sealed rule.

Avoid: `withdraw: damage.crack-seen`
Prefer: a stricter rule beside it, under `house.`.
Why: sealed rules protect people; no house act touches them."""

FORM = """A house act that contradicts itself.

Avoid: two acts on one id; a replacement with another id or subject; a review before the day of the change; an
addition whose id does not start with `house.`; a change to the same value
Prefer: one act for each id, the same `id` and `about` as the shipped rule, `review_by` after `dated`.
Why: each change is read by somebody who was not there when it was made."""

SHAPE = """A file that does not have the shape that is read here.

Avoid: keys that are not known here, values of another kind, missing keys
Prefer: the keys and words of the JSON Schemas that `rules schema --write` writes; an editor that reads them
completes and checks while you type.
Why: an unknown key would be passed over in silence, and with it what it was meant to do."""

FILE = """A file or folder that cannot be read.

Avoid: other endings than `.yaml`, other encodings than UTF-8, files over 1 MB, pipes and devices
Prefer: plain YAML files in one folder.
Why: a file that is passed over in silence is a rule that does not speak."""

SPELLING = """YAML that parsers read in different ways, or not at all.

Avoid: `no`, `on`, `010`, `1:30` without quotes; tabs; anchors and aliases; a key that stands twice; a decimal comma
Prefer: `true` and `false`; numbers with a decimal point; text in quotes where in doubt.
Why: the editor and this tool must read the same thing."""

PAGES = MappingProxyType({
    "rules.house-dates": FORM,
    "rules.house-forbidden": FORBIDDEN,
    "rules.house-id": FORM,
    "rules.house-looser": FORBIDDEN,
    "rules.house-replace": FORM,
    "rules.house-same": FORM,
    "rules.house-sealed": SEALED,
    "rules.house-stale": STALE,
    "rules.house-twice": FORM,
    "rules.house-unknown": UNKNOWN,
    "file.missing-key": SHAPE,
    "file.unknown-key": SHAPE,
    "file.wrong-value": SHAPE,
})  # fmt: skip
FAMILIES = MappingProxyType({"file": FILE, "yaml": SPELLING})
