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
    "evidence.gauge-contradicts": "512da8d8ea432f7de4ddbb8646d4b04caafcb4d020c98c32b0f3e6c26152d8d9",
    "evidence.insert-unknown": "448de8e5194aeeb40f9229739d39f29152c371c348abae55a212600cd2b12f0b",
    "evidence.insert-untested": "55a1f50fbe687284af1d96af345dc44a59a54fda708c8622291b1092fc8f6ced",
    "evidence.instrument-too-coarse": "74ae3f6b25779e9d4edff87a8435f314e8b7da796ed07b247f80d8090587e8bf",
    "evidence.ovality-not-seen": "c65ca65ed391783ecfd845163f28005613498720d95924937b42da6b8b616798",
    "evidence.place-not-looked-at": "6eee3daf1d7811b0d38462c384d295269000bac7c978e921aac391fbc0304353",
    "evidence.too-few-depths": "5ed9593e866543c75025c20f516fff1fb5437ab53f433b6685c6b76346d85984",
    "evidence.too-few-readings": "29ed0d8fbc0e714f962d3e45d6d863549b4bdfd44001d3077338436e15b8f33a",
    "safety.crashed-carbon": "7c9737ce8623ed774a9e0ce22d368a9f661818fd0aba1b0521b67f196b0157f7",
    "safety.fibre-is-never-cut": "3c613dc0bdda279d03b52c529bd6a227ef53dc3ac18ba497157af1049cd2d786",
    "safety.insert-not-proved-firm": "be4f4d292d312ea55fdbeedf888af85d92ccfca612eba8ecab4809bc10c17027",
    "safety.irreversible-work": "e9a115fe7f2b1c2c7805142a0d9dc193852573d2be8f4f20fbf552ac84d57355",
})  # fmt: skip
SHIPPED = "94ae83542506d319d19f751b3a2a86325a714a827796be0d2dc877427f726d89"
