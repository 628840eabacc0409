"""Both parsers, where both are built in."""

import pytest

from recommender.reading import yaml_reader

PARSERS = sorted({yaml_reader.PURE, yaml_reader.FASTEST}, key=lambda each: str(each.__name__))


@pytest.fixture(params=PARSERS, ids=lambda each: str(each.__name__))
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the reader use one of the parsers."""
    monkeypatch.setattr(yaml_reader, "FASTEST", request.param)
