"""What is to be made, and the bearing that goes with it, in the numbers a shop works to."""

from dataclasses import replace

import pytest

from recommender.deciding.answer import RatingShown
from recommender.deciding.makes import bearing_shown, make_shown
from recommender.deciding.options import option_result
from recommender.deriving.derived import Land, Make
from recommender.mechanics.clearance import Band, class_for
from recommender.rulebook.book import Limit

LAND = Land(0, 6, (46.030, 46.040))


def shown(bw, make, **more):
    return make_shown(option_result(bw.option("oversize_cup", make=make, **more), "drive", ()), (), True, bw.book())


@pytest.mark.parametrize(("make", "tolerance"), [
    (Make(od=(46.0301, 46.0426)), 0.00625),
    (Make(od=(46.030, 46.050), bore=(45.0, 45.002)), 0.010),
    (Make(lands=(LAND,)), 0.005),
    (Make(bore=(46.000, 46.016)), 0.008),
    (Make(), None),
    (None, None),
])
def test_the_tolerance_is_half_of_the_band_to_work_to(bw, make, tolerance):
    """To a hundredth of a micrometre; of a turned part its outside diameter, of a stepped one its first land."""
    assert shown(bw, make).tolerance == tolerance


def test_what_is_made_is_released_only_when_the_frame_proceeds_and_nothing_is_missing(bw):
    chosen = option_result(bw.option("oversize_cup"), "drive", ())
    released = {(missing, proceed): make_shown(chosen, missing, proceed, bw.book()).released
                for missing in ((), ("consent",)) for proceed in (True, False)}  # fmt: skip
    assert [key for key, value in released.items() if value] == [((), True)]


@pytest.mark.parametrize(("make", "condition", "within"), [
    (Make(window=(46.01, 46.05), od=(46.025, 46.035)), "", 0.002),
    (Make(window=(46.01, 46.05)), "if it measures so much", 0.002),
    (Make(window=(46.01, 46.05)), "", None),
    (Make(od=(46.025, 46.035)), "", None),
])
def test_how_closely_to_measure_is_told_of_what_is_still_to_be_made_or_measured(bw, make, condition, within):
    limits = {"making.measured_within": limit(bw, "um", 2.0)}
    made = make_shown(option_result(bw.option("oversize_cup", make=make, condition=condition), "drive", ()), (), True,
                      bw.book(limits=limits))  # fmt: skip
    assert made.measured_within == (None if within is None else pytest.approx(within))


def limit(bw, unit, value):
    return Limit("any", "Any limit", unit, value, "lower", "move", bw.book().parts["cup_30"].source, bw.HERE)


def bearing(bw, *bearings, classes=(), **given):
    limits = {"spindle.widest_room": limit(bw, "mm", 0.05), "riding.mean_load": limit(bw, "N", 600.0),
              "riding.cadence": limit(bw, "1/min", 85.0), "pedalling.test_force": limit(bw, "N", 1800.0)}  # fmt: skip
    ordinary = bw.book().bearings
    book = bw.book(limits=limits, bearings={**ordinary, **{each.id: each for each in bearings}})
    option = bw.option("press_as_is", **given)._replace(classes=classes)
    return bearing_shown(option_result(option, "drive", ()), book)


@pytest.mark.parametrize(("inner", "fits"), [
    (23.97, False), (23.98, True), (23.99, True), (24.02, True), (24.04, False),
])
def test_a_thinner_spindle_goes_through_a_bearing_whose_bore_is_at_most_an_ordinary_fit_larger(bw, inner, fits):
    """A spindle of 23.98 mm in a bore of 30: 0 to 0.05 mm of room in another bearing of the same outside."""
    slim = replace(bw.book().bearings["6806"], id="slim", inner=inner)
    made = bearing(bw, slim, part__spindle_room=6.02)
    assert made.reducer == (30.0, 23.98)
    assert [each.partition(",")[0] for each in made.bore_of_spindle] == (["slim"] if fits else [])


def test_another_bearing_is_named_only_of_the_same_outside_and_sold_in_the_class_to_order(bw):
    classes = class_for({"CN": Band(0.005, 0.020), "C3": Band(0.013, 0.028)}, Band(0.006, 0.012), Band(0.0, 0.028))
    slim = replace(bw.book().bearings["6806"], id="slim", inner=23.99)
    others = slim, replace(slim, id="smaller", outer=40.0), replace(slim, id="plain", sold=("CN",))
    made = bearing(bw, *others, classes=classes, part__spindle_room=6.02)
    assert (made.clearance_class, made.bore_of_spindle) == ("C3", ("slim, 23.99 x 42 x 7 mm",))


def test_a_spindle_is_given_to_the_micrometre(bw):
    assert bearing(bw, part__spindle_room=6.0204).reducer == (30.0, 23.98)


@pytest.mark.parametrize("room", [None, 0.03, 0.05])
def test_an_ordinary_spindle_needs_nothing_between(bw, room):
    made = bearing(bw, part__spindle_room=room)
    assert (made.reducer, made.bore_of_spindle) == (None, ())


RATED = {"bearing__dynamic_rating": 4493.0, "bearing__static_rating": 3617.0, "bearing__life": 12_345.0,
         "bearing__static_reserve": 2.0}  # fmt: skip


def test_ratings_are_given_to_three_figures_with_what_they_are_for(bw):
    """Ten newtons and a thousand hours: catalogues of bearings give no more."""
    assert bearing(bw, **RATED).rating == RatingShown(
        4490.0, 3620.0, 12_000.0, 600.0, 85.0, 2.0, 1800.0, "ISO 281 and ISO 76")


@pytest.mark.parametrize("missing", ["bearing__dynamic_rating", "bearing__static_rating", "bearing__life"])
@pytest.mark.parametrize("left", ["unknown", "not derived"])
def test_without_one_of_the_ratings_none_is_given(bw, missing, left):
    given = {key: value for key, value in RATED.items() if key != missing}
    assert bearing(bw, **given, **({missing: None} if left == "unknown" else {})).rating is None


def test_a_reserve_that_is_not_known_leaves_the_other_ratings(bw):
    rating = bearing(bw, **RATED | {"bearing__static_reserve": None}).rating
    assert (rating.dynamic_n, rating.static_reserve) == (4490.0, None)
