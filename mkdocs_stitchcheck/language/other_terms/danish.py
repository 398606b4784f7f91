"""Danish: "Omg 4: (2 fm, udt) x 6 (24)". The plain words; common practice, no source."""

from __future__ import annotations

from .table import OtherTerms

_M = "m|maske|masker"

DANISH = OtherTerms(
    "da", "Danish",
    stitches={
        "fm|fastmaske|fastmasker": "sc", "hstm|halvstangmaske|halvstangmasker": "hdc", "stm|stangmaske|stangmasker": "dc", "dst|dstm": "tr",
        "km|kædemaske|kædemasker": "sl st", "lm|luftmaske|luftmasker": "ch", "udt|udtagning|udtagninger": "inc", "indt|indtagning|indtagninger": "dec",
    },
    phrases={
        "omg|omgang # - #": "Rnds #1-#2", "omg|omgang # til|og #": "Rnds #1-#2", "omg|omgang #": "Rnd #1", "#. omg|omgang": "Rnd #1", "række|rk #": "Row #1",
        "omg|omgang": "rnd", "omgange": "rnds", "række": "row", "mr": "magic ring", "magisk ring": "magic ring", "i [en] magisk ring": "in magic ring", "i mr": "in magic ring",
        f"i hver {_M}": "in each sts", f"# % i hver {_M}": "#1 %1 in each sts", f"i næste {_M}": "in next sts", f"i de næste # {_M}": "in next #1 sts",
        f"# % i samme|1|en {_M}": "#1 %1 in next sts", "# % sammen": "#1 %1 tog", "sammen|sm": "tog", "hele vejen rundt": "around", "omgangen rundt": "around",
        "# gange": "#1 times", "gange": "times", "gentag fra *": "rep from *", "gentag": "rep", "vend": "turn", f"spring # {_M} over": "sk #1 sts",
        "i bagerste lænke|maskelænke|led": "in back loops only", "i forreste lænke|maskelænke|led": "in front loops only",
        "fyld [op]": "stuff", "klip garnet": "fasten off", "luk af": "fasten off", "hæft ende|ender|enderne": "weave in ends", "sy": "sew", "sikkerhedsøjne": "safety eyes",
        "isæt|placer|monter": "insert", "mellem": "between", "og": "~and", "i": "~in", "hækl": "~", f"{_M}": "sts",
    },
    names={
        "sc": ("fm", "fastmaske"), "hdc": ("hstm", "halvstangmaske"), "dc": ("stm", "stangmaske"), "tr": ("dst", "dobbeltstangmaske"), "sl st": ("km", "kædemaske"),
        "ch": ("lm", "luftmaske"), "inc": ("udt", "udtagning"), "dec": ("indt", "indtagning"),
    },
    further={"m": "maske (stitch)", "omg": "omgang (round)", "mr": "magisk ring (magic ring)"},
    headers={"garn": "Yarn", "farve": "Color", "hæklenål": "Hook", "strikkefasthed": "Gauge", "hæklefasthed": "Gauge", "fyld": "Stuffing", "øjne": "Eyes",
             "forkortelser": "Abbreviations", "materialer": "Notions"},
    making_up=("montering", "samling"),
)  # fmt: skip
