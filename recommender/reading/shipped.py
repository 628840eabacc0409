"""Where the shipped rules and cases lie: inside the installed package, or beside it in a checkout."""

from pathlib import Path

import recommender

PACKAGE = Path(recommender.__file__).resolve().parent


def shipped_rules() -> Path:
    """Return the folder of the shipped rules; raises FileNotFoundError when the installation has none."""
    return _shipped("rules", PACKAGE)


def shipped_cases() -> Path:
    """Return the folder of the shipped cases; raises FileNotFoundError when the installation has none."""
    return _shipped("cases", PACKAGE)


def _shipped(name: str, package: Path) -> Path:
    for folder in (package / name, package.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"this installation has no {name}: neither {package / name} nor {package.parent / name}")
