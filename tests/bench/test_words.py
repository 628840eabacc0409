"""Every word that only the rule book can judge can be found in the file."""

from collections.abc import Callable

from recommender.bench.load import LoadedCase
from recommender.bench.trouble import Trouble
from recommender.bench.words import KEY, WordUsed, remedies_named, words_used

Load = Callable[[str], LoadedCase]


def test_words_come_with_list_and_path(valid: str, load: Load) -> None:
    used = set(words_used(load(valid).case))
    assert WordUsed("materials", "carbon", ("frame", "material")) in used
    assert WordUsed("places", "lip", ("damage", "looked_at", "lip", KEY)) in used
    assert WordUsed("looks", "tap", ("damage", "looked_at", "joint", 1)) in used
    assert WordUsed("signs", "lacquer_scratch", ("damage", "signs", 0, "sign")) in used
    assert WordUsed("part_materials", "polymer", ("history", "cups", 0, "material")) in used


def test_every_list_is_reached(valid: str, load: Load) -> None:
    text = valid.replace("feel: unknown", "feel: normal").replace(
        "od: 46.032 mm}", "od: 46.032 mm, clearance_class: C3, coating: anodised}"
    )
    lists = {used.list_name for used in words_used(load(text).case)}
    assert lists == {
        "materials", "standards", "inserts", "symptoms", "signs", "places", "looks", "crash", "parts",
        "part_materials", "instruments", "clearance_classes", "coatings", "cut_before", "cleaned",
        "opening_kinds",
        "warranty", "press_feel", "elsewhere", "alignment_methods",
    }  # fmt: skip


def test_unknown_is_left_out_where_it_is_legal_and_only_there(valid: str, load: Load) -> None:
    text = valid.replace("crash: no_crash", "crash: unknown").replace(
        "symptoms: [creak]", "symptoms: [unknown]"
    )
    unknown = [used.list_name for used in words_used(load(text).case) if used.word == "unknown"]
    assert unknown == ["symptoms"]


def test_each_word_stands_where_its_path_says(valid: str, load: Load) -> None:
    loaded = load(valid)
    lines = loaded.document.text.splitlines()
    for used in words_used(loaded.case):
        place = Trouble("test", used.path, "", "").at(loaded.document).place
        assert lines[place.line - 1][place.column - 1 :].startswith(used.word), used


def test_remedies_consented_to_have_a_path(valid: str, load: Load) -> None:
    case = load(valid.replace("consent: []", "consent: [ream]")).case
    assert list(remedies_named(case)) == [("ream", ("history", "consent", 0))]
