"""Dutch: "Toer 4: (2 v, meerderen) x 6 (24)". The plain words; common practice, no source."""

from __future__ import annotations

from .table import OtherTerms

_S = "st|steek|steken"

DUTCH = OtherTerms(
    "nl", "Dutch",
    stitches={
        "v|vaste|vasten": "sc", "hstk|hst|halfstokje|halfstokjes": "hdc", "half|halve stokje|stokjes": "hdc",
        "stk|stokje|stokjes": "dc", "dstk|dst": "tr", "dubbel|dubbele stokje|stokjes": "tr",
        "hv|hvs": "sl st", "halve vaste|vasten": "sl st", "l|losse|lossen": "ch",
        "meerderen|meerdering|meerderingen|meerd|mrd": "inc", "minderen|mindering|minderingen|mind|mnd": "dec",
    },
    phrases={
        "toer|toeren|ronde|ronden # - #": "Rnds #1-#2", "toer|toeren|ronde|ronden # t/m|tot|en #": "Rnds #1-#2",
        "toer|ronde #": "Rnd #1", "rij #": "Row #1", "rijen # - #": "Rows #1-#2", "toer|ronde": "rnd", "toeren|ronden|rondes": "rnds", "rij": "row",
        "magische ring|cirkel": "magic ring", "in [een|de] magische ring|cirkel": "in magic ring", "mr": "magic ring", "opzetring": "magic ring",
        f"in elke|iedere {_S}": "in each sts", f"elke|iedere {_S}": "each sts", f"# % in elke|iedere {_S}": "#1 %1 in each sts",
        f"in [de] volgende # {_S}": "in next #1 sts", f"in [de] volgende {_S}": "in next sts", f"in dezelfde {_S}": "in same sts",
        f"# % in 1|één|een|dezelfde {_S}": "#1 %1 in next sts", f"# {_S} samen haken": "#1 sc tog", "samen haken|samenhaken": "tog", "# % samen|samenhaken [haken]": "#1 %1 tog",
        "rondom": "around", "tot het einde": "to end", f"tot de laatste # {_S}": "to last #1 sts",
        f"sla # {_S} over": "sk #1 sts", "keer|keren": "turn", "# keer": "#1 times", "herhaal vanaf *": "rep from *", "herhaal": "rep",
        "alleen in de achterste lussen|lus": "in back loops only", "alleen in de voorste lussen|lus": "in front loops only",
        "vul op|opvullen|vullen|vul": "!stuff", "hecht af|afhechten": "fasten off", "knip de draad af": "fasten off", "naai|vastnaaien": "!sew",
        "veiligheidsogen": "safety eyes", "plaats": "insert", "tussen": "between", "en": "~and", "de|het": "~the", "in": "~in", "haak": "~", _S: "sts",
    },
    names={
        "sc": ("v", "vaste"), "hdc": ("hstk", "half stokje"), "dc": ("stk", "stokje"), "tr": ("dstk", "dubbel stokje"), "sl st": ("hv", "halve vaste"),
        "ch": ("l", "losse"), "inc": ("meerd", "meerdering"), "dec": ("mind", "mindering"),
    },
    further={"st": "steek (stitch)", "mr": "magische ring (magic ring)"},
    headers={"titel": "Title", "garen": "Yarn", "kleur": "Color", "haaknaald": "Hook", "stekenverhouding": "Gauge", "vulling": "Stuffing", "ogen": "Eyes",
             "afkortingen": "Abbreviations", "benodigdheden": "Notions"},
    making_up=("afwerking", "in elkaar zetten", "afwerken"),
)  # fmt: skip
