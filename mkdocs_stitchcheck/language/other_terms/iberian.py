"""Spanish and Portuguese: "V4: (2 pb, aum) x 6 (24)". The plain words; common practice, no source."""

from __future__ import annotations

from .table import OtherTerms

_P = "p|punto|puntos|pt|pts|pto|ptos"
_PT = "p|ponto|pontos|pt|pts"

SPANISH = OtherTerms(
    "es", "Spanish",
    stitches={
        "pb": "sc", "punto|puntos bajo|bajos": "sc", "mp|mpa|pma": "hdc", "medio|medios punto|puntos [alto|altos]": "hdc", "pa": "dc", "punto|puntos alto|altos": "dc",
        "pad|pda": "tr", "pr|pe|pd": "sl st", "punto|puntos raso|deslizado|enano|rasos": "sl st", "cad|cadeneta|cadenetas|cad": "ch",
        "aum|aumento|aumentos": "inc", "dism|dis|dim|disminución|disminuciones": "dec",
    },
    phrases={
        "vuelta|vueltas|v|ronda|rondas # - #": "Rnds #1-#2", "vueltas|rondas # a|y #": "Rnds #1-#2", "vuelta|v|ronda #": "Rnd #1", "hilera|fila #": "Row #1", "hileras|filas # - #": "Rows #1-#2",
        "vuelta|ronda": "rnd", "vueltas|rondas": "rnds", "am": "magic ring", "anillo|círculo mágico": "magic ring", "en [un|el] anillo|círculo mágico": "in magic ring", "en am": "in magic ring",
        f"en cada {_P}": "in each sts", f"# % en cada {_P}": "#1 %1 in each sts", f"en el siguiente {_P}": "in next sts", f"en los siguientes # {_P}": "in next #1 sts",
        f"# % en el mismo {_P}": "#1 %1 in next sts", f"# % en 1|un {_P}": "#1 %1 in next sts", "# % juntos": "#1 %1 tog", "juntos": "tog", "alrededor": "around", "toda la vuelta": "around",
        "# veces": "#1 times", "veces": "times", "repetir|repite [desde] *": "rep from *", "repetir|repite|rep": "rep", "girar|gira|voltear": "turn", f"saltar|salta # {_P}": "sk #1 sts",
        "rellenar|rellena": "stuff", "cortar|corta [el] hilo|hebra": "fasten off", "rematar|remata": "fasten off", "coser|cose": "sew", "ojos de seguridad": "safety eyes",
        "colocar|coloca|poner": "insert", "entre": "between", "y": "~and", "el|la|los|las": "~the", "en": "~in", f"{_P}": "sts",
    },
    names={
        "sc": ("pb", "punto bajo"), "hdc": ("mp", "medio punto"), "dc": ("pa", "punto alto"), "tr": ("pad", "punto alto doble"), "sl st": ("pr", "punto raso"),
        "ch": ("cad", "cadeneta"), "inc": ("aum", "aumento"), "dec": ("dism", "disminución"),
    },
    further={"am": "anillo mágico (magic ring)", "p": "punto (stitch)"},
    headers={"título": "Title", "hilo": "Yarn", "lana": "Yarn", "ganchillo": "Hook", "aguja": "Hook", "muestra": "Gauge", "relleno": "Stuffing", "ojos": "Eyes",
             "abreviaturas": "Abbreviations", "materiales": "Notions"},
    making_up=("montaje", "acabado", "armado"),
)  # fmt: skip

PORTUGUESE = OtherTerms(
    "pt", "Portuguese",
    stitches={
        "pb": "sc", "ponto|pontos baixo|baixos": "sc", "mpa": "hdc", "meio|meios ponto|pontos alto|altos": "hdc", "pa": "dc", "ponto|pontos alto|altos": "dc", "pad": "tr",
        "pbx": "sl st", "ponto|pontos baixíssimo|baixíssimos": "sl st", "corr|corrente|correntes|correntinha|correntinhas": "ch",
        "aum|aumento|aumentos": "inc", "dim|diminuição|diminuições": "dec",
    },
    phrases={
        "carreira|carreiras|carr|volta|voltas # - #": "Rnds #1-#2", "carreiras|voltas # a|e #": "Rnds #1-#2", "carreira|carr|volta #": "Rnd #1", "carreira|volta": "rnd", "carreiras|voltas": "rnds",
        "am": "magic ring", "anel|círculo mágico": "magic ring", "no|num [um] anel|círculo mágico": "in magic ring", "no am": "in magic ring",
        f"em cada {_PT}": "in each sts", f"# % em cada {_PT}": "#1 %1 in each sts", f"no próximo {_PT}": "in next sts", f"nos próximos # {_PT}": "in next #1 sts",
        f"# % no mesmo {_PT}": "#1 %1 in next sts", f"# % em 1|um {_PT}": "#1 %1 in next sts", "# % juntos": "#1 %1 tog", "juntos": "tog", "em toda a volta": "around", "à volta": "around",
        "# vezes": "#1 times", "vezes": "times", "repetir|repita [de] *": "rep from *", "repetir|repita|rep": "rep", "virar|vire": "turn", f"pular|pule|saltar # {_PT}": "sk #1 sts",
        "encher|encha": "stuff", "cortar|corte [o] fio": "fasten off", "arrematar|arremate": "fasten off", "costurar|costure": "sew", "olhos de segurança": "safety eyes",
        "colocar|coloque": "insert", "entre": "between", "e": "~and", "o|a|os|as": "~the", "em|no": "~in", f"{_PT}": "sts",
    },
    names={
        "sc": ("pb", "ponto baixo"), "hdc": ("mpa", "meio ponto alto"), "dc": ("pa", "ponto alto"), "tr": ("pad", "ponto alto duplo"), "sl st": ("pbx", "ponto baixíssimo"),
        "ch": ("corr", "correntinha"), "inc": ("aum", "aumento"), "dec": ("dim", "diminuição"),
    },
    further={"am": "anel mágico (magic ring)", "p": "ponto (stitch)"},
    headers={"título": "Title", "fio": "Yarn", "linha": "Yarn", "cor": "Color", "agulha": "Hook", "amostra": "Gauge", "enchimento": "Stuffing", "olhos": "Eyes",
             "abreviaturas": "Abbreviations", "materiais": "Notions"},
    making_up=("montagem", "acabamento"),
)  # fmt: skip
