"""Facts about damage: a sign is there, is not there (every place it could be was looked at), or is unknown."""

from recommender.facts.fact import Fact, Scope

LOOK = "look at every place of the shell with a lamp, tap it against the mirrored place, and write down each one"


def _sign(name: str, scope: Scope, phrase: str, meaning: str) -> Fact:
    return Fact(
        f"damage.{name}",
        scope,
        "flag",
        phrase,
        meaning,
        "signs found; `no` only when every place this frame has was looked at",
        "inspection",
        LOOK,
    )


FACTS: tuple[Fact, ...] = (
    _sign("crack", "frame", "crack", "A crack line in shell, joint or insert edge was seen anywhere on the frame."),
    _sign(
        "delamination",
        "frame",
        "delamination",
        "A whitish, soft or bulging patch or a dull tap tells of layers that have come apart.",
    ),
    _sign("loose_fibres", "frame", "loose or cut fibres", "Fibres stand loose, are torn or were cut in bore or lip."),
    _sign(
        "disbond_line",
        "frame",
        "line at the insert joint",
        "A white line or gap runs in the resin between insert and laminate.",
    ),
    _sign("paint_bubbles", "frame", "paint bubbles", "Paint is lifted in bubbles around shell or insert."),
    _sign("white_powder", "frame", "white powder", "White corrosion powder of aluminium was seen."),
    Fact(
        "damage.bond_corrosion",
        "frame",
        "flag",
        "corrosion at a bond",
        "White powder or lifted paint stands at an insert edge or a joint, where metal is bonded to laminate.",
        "signs white_powder and paint_bubbles at insert_edge or joint",
        "inspection",
        LOOK,
    ),
    Fact(
        "damage.places_unseen",
        "frame",
        "number",
        "places nobody looked at",
        "How many of the places this frame has were not looked at.",
        "places the frame has, less those named under looked_at",
        "inspection",
        LOOK,
        "1",
        (0.0, 10.0),
    ),
    Fact(
        "damage.insert_test",
        "frame",
        "word",
        "load test of the insert",
        "What the load test of a bonded insert showed.",
        "written in the case",
        "load_test",
        "load the insert by hand torque with a dial gauge against the shell and watch for movement",
        words=("firm", "moved"),
    ),
    _sign("polished_band", "side", "polished band", "A polished or dusty band in the bore tells of fretting."),
    _sign("crushed_lip", "side", "crushed lip", "The lip of the bore is crushed, chipped or marked by a tilted press."),
    _sign("bell_mouth", "side", "bell mouth", "The outermost part of the bore is flared."),
    _sign("lacquer_scratch", "frame", "lacquer scratch", "A scratch or chip that stays in the lacquer."),
    _sign("mould_mark", "side", "mould mark", "Mould skin, seam or release texture is intact in the bore."),
)
