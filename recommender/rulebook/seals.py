"""The rules that protect people, and the fingerprints they and the shipped book were released with.

SEALED_IDS is kept by hand; everything below it is rewritten by `python tests/rulebook/reseal.py` after a shipped rule
was changed on purpose. Nothing read at run time can turn a seal off.
"""

from collections.abc import Mapping
from types import MappingProxyType

SEALED_IDS = (
    "damage.corrosion-at-bond",
    "damage.crack-seen",
    "damage.fibres-cut",
    "damage.insert-moves",
    "damage.layers-apart",
    "damage.line-at-insert",
    "evidence.gauge-contradicts",
    "evidence.insert-unknown",
    "evidence.insert-untested",
    "evidence.instrument-too-coarse",
    "evidence.ovality-not-seen",
    "evidence.place-not-looked-at",
    "evidence.too-few-depths",
    "evidence.too-few-readings",
    "safety.crashed-carbon",
    "safety.fibre-is-never-cut",
    "safety.insert-not-proved-firm",
    "safety.irreversible-work",
)

# Rewritten by tests/rulebook/reseal.py from here on.
SEALED: Mapping[str, str] = MappingProxyType({
    "damage.corrosion-at-bond": "647a4ec78fcfe59721cb8a554047ed294ae481976a5ca4fa759780721a1d1ac9",
    "damage.crack-seen": "0245f9d4da81bf3871e1ced35cbd550c6d8557286968c79d767399eac66fc8a6",
    "damage.fibres-cut": "76b619306a358a473b2e6cd8fba92b53fda7f3a5ded969c6f2632d0cd50404a3",
    "damage.insert-moves": "41fa874e3eac14d13bc84f293601c47a0ec5ec2285323cb6410de278f637b1c9",
    "damage.layers-apart": "971943a6c5f3fab9bd7e46cbe6a3df4f69850d71b13db068aae95709bdf77afb",
    "damage.line-at-insert": "2029e6ddb8f2a6e7b2f666f40150d597523f9a1ba5c3c67db15f0f6e956e6328",
    "evidence.gauge-contradicts": "3f5a526304b90775d5ac67e2dac60d41c285ea8ff90163c4e81bbd35b2df1b9f",
    "evidence.insert-unknown": "448de8e5194aeeb40f9229739d39f29152c371c348abae55a212600cd2b12f0b",
    "evidence.insert-untested": "55a1f50fbe687284af1d96af345dc44a59a54fda708c8622291b1092fc8f6ced",
    "evidence.instrument-too-coarse": "3b94629d1c58bda3a3067fd7ff7ba0bb03907f81ef943591874ea26e4715cd4f",
    "evidence.ovality-not-seen": "6a637cb82a54d0d968636b3be8f8cac563ed8fd79dea3c4a6f3c9394a0d34705",
    "evidence.place-not-looked-at": "6eee3daf1d7811b0d38462c384d295269000bac7c978e921aac391fbc0304353",
    "evidence.too-few-depths": "851b755b772940c9710d88f7e73f3fba48f7d625d4036634a929ad4e8be257e7",
    "evidence.too-few-readings": "dfd1c682ca8eb604f51cf9256998e991d0ab7c3926765f72ffd9af4fd42027c9",
    "safety.crashed-carbon": "7c9737ce8623ed774a9e0ce22d368a9f661818fd0aba1b0521b67f196b0157f7",
    "safety.fibre-is-never-cut": "3c613dc0bdda279d03b52c529bd6a227ef53dc3ac18ba497157af1049cd2d786",
    "safety.insert-not-proved-firm": "be4f4d292d312ea55fdbeedf888af85d92ccfca612eba8ecab4809bc10c17027",
    "safety.irreversible-work": "e9a115fe7f2b1c2c7805142a0d9dc193852573d2be8f4f20fbf552ac84d57355",
})  # fmt: skip
SHIPPED = "51b38e6a2e66015b9d7c3cdcc9ee944cd0315f256f51b83a5a12b12f337fcfa5"
