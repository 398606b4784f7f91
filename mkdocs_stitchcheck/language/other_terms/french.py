"""French: "Tour 4 : (2 ms, aug) x 6 (24)"; mc is the slip stitch. The plain words; common practice, no source."""

from __future__ import annotations

from .table import OtherTerms

_M = "m|maille|mailles"

FRENCH = OtherTerms(
    "fr", "French",
    stitches={
        "ms": "sc", "maille|mailles serrée|serrées": "sc", "db|dbr|dmb": "hdc", "demi|demie - bride|brides": "hdc", "demi-bride|demi-brides": "hdc",
        "br|bride|brides": "dc", "dbl|dbride": "tr", "double|doubles bride|brides": "tr", "mc": "sl st", "maille|mailles coulée|coulées": "sl st",
        "ml": "ch", "maille|mailles en l'air": "ch", "aug|augm|augmentation|augmentations": "inc", "dim|dimin|diminution|diminutions": "dec",
    },
    phrases={
        "tour|tours|t|rg # - #": "Rnds #1-#2", "tours # à|et #": "Rnds #1-#2", "tour|t|rg #": "Rnd #1", "rang|r #": "Row #1", "rangs # - #": "Rows #1-#2", "rangs # à #": "Rows #1-#2",
        "tour": "rnd", "tours": "rnds", "rang": "row", "rangs": "rows",
        "cercle|anneau magique": "magic ring", "dans|dans [un|le] cercle|anneau magique": "in magic ring", "cm": "magic ring", "dans le|un cercle|anneau": "in ring",
        f"dans chaque {_M}": "in each sts", f"# % dans chaque {_M}": "#1 %1 in each sts", f"chaque {_M}": "each sts", f"dans la {_M} suivante": "in next sts",
        f"dans les # {_M} suivantes": "in next #1 sts", f"dans la même {_M}": "in same sts", f"# % dans 1|une|la [même] {_M}": "#1 %1 in next sts",
        "# % ensemble": "#1 %1 tog", "ensemble": "tog", "tout autour": "around", "tout le tour": "around", "jusqu'à la fin": "to end",
        "# fois": "#1 times", "fois": "times", "répéter|répétez|rép [à] [partir] [de] *": "rep from *", "répéter|répétez|rép": "rep", "tourner|tournez": "turn",
        f"sauter|passer # {_M}": "sk #1 sts", "brin arrière [seulement|uniquement]": "in back loops only", "brin avant [seulement|uniquement]": "in front loops only",
        "rembourrer|rembourrez": "stuff", "arrêter|couper|coupez|arrêtez [le] fil": "fasten off", "coudre|cousez": "sew", "yeux de sécurité": "safety eyes",
        "placer|placez|fixer|fixez": "insert", "entre": "between", "et": "~and", "le|la|les": "~the", "dans": "~in", "puis": "~then", f"{_M}": "sts",
    },
    names={
        "sc": ("ms", "maille serrée"), "hdc": ("db", "demi-bride"), "dc": ("br", "bride"), "tr": ("dbl", "double bride"), "sl st": ("mc", "maille coulée"),
        "ch": ("ml", "maille en l'air"), "inc": ("aug", "augmentation"), "dec": ("dim", "diminution"),
    },
    further={"m": "maille (stitch)", "cm": "cercle magique (magic ring)"},
    headers={"titre": "Title", "fil": "Yarn", "laine": "Yarn", "couleur": "Color", "crochet": "Hook", "échantillon": "Gauge", "rembourrage": "Stuffing",
             "yeux": "Eyes", "abréviations": "Abbreviations", "fournitures": "Notions", "matériel": "Notions"},
    making_up=("assemblage", "finitions", "montage"),
)  # fmt: skip
