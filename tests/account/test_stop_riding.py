"""The stop-riding notice for files that cannot be judged."""

import pytest

from recommender.account.lines import plain
from recommender.account.stop_riding import FALLBACK, STOPPING_SIGNS, notice_for_signs, stopping
from recommender.rulebook.book import Rulebook

HARMLESS = ("polished_band", "crushed_lip", "bell_mouth", "lacquer_scratch", "mould_mark", "paint_bubbles",
            "white_powder", "crashed")  # fmt: skip


@pytest.mark.parametrize("sign", [*STOPPING_SIGNS, "Cracks", "crak", "craked", "hairline-crack", "loose fibres",
                                  "delaminated", "disbond line", "insert moved"])  # fmt: skip
def test_these_stop_the_work(sign: str) -> None:
    assert stopping([sign]) == (sign,)


@pytest.mark.parametrize("sign", HARMLESS)
def test_these_do_not(sign: str) -> None:
    assert stopping([sign]) == ()


def test_every_sign_of_the_book_is_judged_here(book: Rulebook) -> None:
    assert {*STOPPING_SIGNS, *HARMLESS} >= set(book.words["signs"])


def test_the_notice_cannot_be_missed() -> None:
    text = plain(notice_for_signs(["lacquer_scratch", "loose_fibres"], "bench/a.yaml"))
    assert text.startswith("=" * 80)
    assert "STOP RIDING: bench/a.yaml" in text
    assert "noted in this file: loose fibres." in text
    assert "lacquer" not in text
    assert FALLBACK.split(".")[0] in " ".join(text.split())


def test_no_sign_no_notice() -> None:
    assert notice_for_signs(["mould_mark"], "bench/a.yaml") == []
