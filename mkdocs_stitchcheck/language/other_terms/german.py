"""German: "Rd 4: (2 fM, Zun) x 6 (24)". Common practice, no source."""

from __future__ import annotations

from .table import OtherTerms

_STITCHES = {
    "fm|fstm": "sc", "feste|festen|fester m|masche|maschen": "sc", "feste|festen": "sc",
    "hstb|hst|hstbs": "hdc", "halbes|halbe|halben stb|stäbchen": "hdc", "h. stb": "hdc",
    "stb|stbs|stäbchen": "dc", "ganzes|ganze|ganzen stäbchen": "dc",
    "dstb|dst": "tr", "doppelstäbchen|doppelstb": "tr", "d. stb": "tr",
    "dreifachstäbchen|dreifachstb|dreifstb|drstb": "dtr", "3 fach stb|stäbchen": "dtr",
    "km|kettm|kettmasche|kettmaschen|kettelmasche|kettelmaschen": "sl st",
    "lm|luftm|luftmasche|luftmaschen": "ch", "wlm|wendelm|wendeluftmasche|wendeluftmaschen": "ch",
    "steigelm|steigeluftmasche|steigeluftmaschen|stlm": "ch",
    "zun|zunahme|zunahmen|zugen": "inc", "abn|abnahme|abnahmen|uabn": "dec",
    "unsichtbare|unsichtb abn|abnahme|abnahmen": "dec", "unsichtbare|unsichtb zun|zunahme|zunahmen": "inc",
    "krebsm|krebsmasche|krebsmaschen": "rsc", "noppe|noppen": "bobble", "popcornmasche|popcornmaschen": "popcorn",
    "büschelmasche|büschelmaschen": "cluster", "pikot|picot|pikots|picots": "picot",
    "schlingenmasche|schlingenmaschen": "loop st",
    "reliefstb|reliefstäbchen [von] vorne|vorn": "fpdc", "reliefstb|reliefstäbchen [von] hinten": "bpdc",
    "vrstb|rstbv|rstb vorne": "fpdc", "hrstb|rstbh|rstb hinten": "bpdc",
}  # fmt: skip

_M = "m|masche|maschen"
_RD = "rd|rde|rnd|runde|runden|rdn"
_RH = "reihe|reihen|rh|r"
_TOG = "zus|zusammen"
_MADE = "abm|abmaschen|abgemascht|häkeln|abgem|arbeiten"
_REP = "wdh|wiederholen|wdhl|wiederh"
_IN = "in|ins"
_DIE = "die|das|den|der|dem"
_NEXT = "nächste|nächsten|nä|nächst|folgende|folgenden|folg"
_LAST = "letzte|letzten|letzter"

_PHRASES = {
    # labels
    f"{_RD} # bis|–|- #": "Rnds #1-#2", f"{_RD} # und|u #": "Rnds #1, #2", f"{_RD} #": "Rnd #1", _RD: "Rnd",
    "reihe|reihen|rh # bis|–|- #": "Rows #1-#2", f"{_RH} # bis #": "Rows #1-#2", "reihe|reihen|rh #": "Row #1",
    "reihe|rh": "row", "reihen": "rows",
    f"#. [{_RD}] bis|-|– #. {_RD}": "Rnds #1-#2", f"#. {_RD}": "Rnd #1", f"#. und|u #. {_RD}": "Rnds #1, #2",
    "#. bis|-|– #. reihe|reihen|rh": "Rows #1-#2", "#. reihe|rh": "Row #1",
    "hinreihe|hinr|hr": "RS", "rückreihe|rückr": "WS", "(hinreihe)": "(RS)",
    f"{_NEXT} {_RD}": "next rnd", f"{_LAST} {_RD}": "last rnd", f"{_LAST} # {_RD}|reihen": "last #1 rnds",
    f"{_NEXT} reihe": "next row", f"für # {_RD}|reihen": "for #1 rnds", f"# {_RD}": "#1 rnds", "# reihen": "#1 rows",
    # rings and foundations
    "fadenring|fr|mr|magicring|zauberring|maschenring": "magic ring",
    "[ein|eine|einen|einem] [den|dem] magischer|magischen|magic ring|kreis": "magic ring", "magic circle": "magic ring",
    f"{_IN} [{_DIE}|einen|einem|ein] fadenring|fr|mr|zauberring|maschenring": "in magic ring",
    f"{_IN} [{_DIE}|einen] magischen|magic ring|kreis": "in magic ring", f"{_IN} {_DIE} ring": "in ring",
    "# % in|ins [den|einen] ring": "#1 %1 in ring",
    "luftmaschenkette|lm-kette [aus|mit|von|über] # lm|luftmaschen": "ch #1", "# lm|luftmaschen anschlagen": "#1 ch",
    "lmkette [aus|mit|von] # lm|luftmaschen": "ch #1", "# wlm|wendeluftmaschen": "ch #1",
    "mit [#|einer|1] km|kettmasche [zum|zur|in|zu] [einem|die|1] [1.|erste|ersten] [ring|fm|m|masche|runde|rd] schließen|verbinden": "join with sl st",
    "[die] rd|runde mit [#|einer] km|kettmasche schließen|beenden": "join with sl st",
    "zum|zu ring|einem schließen": "join to form ring", "zum ring verbinden": "join to form ring",
    # places
    f"jede|jeder|jedes {_M}": "each sts", f"{_IN} jede {_M}": "in each sts", f"{_IN} alle {_M}": "in each sts",
    f"{_IN} jede {_M} [je] # %": "work #1 %1 in each sts", f"{_IN} jede {_M} %": "work 1 %1 in each sts",
    f"jede {_M} %": "%1 in each sts", f"jede|alle {_M} verd|verdoppeln": "inc around",
    f"{_IN} {_DIE} {_NEXT} {_M}": "in next sts", f"{_IN} {_NEXT} {_M}": "in next sts",
    f"{_IN} {_DIE} {_NEXT} # {_M}": "in next #1 sts", f"{_IN} {_DIE} {_NEXT} {_M} [je] # %": "work #1 %1 in next sts",
    f"{_IN} {_DIE} {_NEXT} # {_M} [je] # %": "work #2 %1 in next #1 sts",
    f"{_NEXT} # {_M}": "next #1 sts", f"{_NEXT} {_M}": "next sts", f"{_LAST} {_M}": "last sts", f"{_LAST} # {_M}": "last #1 sts",
    f"{_IN} {_DIE} {_LAST} {_M}": "in last sts", f"{_IN} {_DIE} {_LAST} {_M} # %": "work #1 %1 in last sts",
    f"{_IN} {_DIE} {_LAST} lm|luftmasche # %": "work #1 %1 in last ch", f"{_IN} {_DIE} {_LAST} lm|luftmasche": "in last ch",
    f"{_IN} {_DIE} #. {_M}": "in #1th sts", f"{_IN} {_DIE} erste|ersten {_M}": "in first sts",
    f"{_IN} {_DIE} #. lm|luftmasche [ab|von|vor|von] [der|aus] [häkelnadel|nadel] [aus]": "in #1th ch from hook",
    f"ab [{_DIE}] #. lm|luftmasche [ab|von] [der] [häkelnadel|nadel]": "starting in #1th ch from hook",
    f"{_IN} {_DIE} zweite lm|luftmasche [ab|von] [der] [häkelnadel|nadel] [aus]": "in second ch from hook",
    f"# x|mal # % {_IN} eine|einer|dieselbe|1 {_M}|einstichstelle": "#1 x (#2 %1 in next sts)",
    f"# % {_IN} eine|einer|dieselbe|derselben|1|eine [einzige] {_M}|einstichstelle": "#1 %1 in next sts",
    f"# % {_IN} {_DIE} gleiche|selbe|gleichen|selben {_M}|einstichstelle": "#1 %1 in next sts",
    f"1 % {_IN} {_DIE} gleiche|selbe|gleichen|selben {_M}|einstichstelle": "1 %1 in same sts",
    f"1 % {_IN} dieselbe|derselben {_M}|einstichstelle": "1 %1 in same sts",
    f"# % {_IN} {_DIE} {_NEXT} {_M} , # % {_IN} dieselbe|derselben {_M}": "#1 %1 in next sts, #2 %2 in same sts",
    f"{_IN} {_DIE} gleiche|selbe {_M}|einstichstelle": "in same sts", f"{_IN} dieselbe {_M}": "in same sts",
    f"{_IN} eine|einer|1 {_M}": "in next sts",
    "rundherum|ringsum|rundum": "around", "die ganze|gesamte runde|rd": "around", "bis zum|zu ende [der] [rd|runde|reihe]": "to end",
    "bis zum rundenende|reihenende|ende": "to end", "bis ende [der] [rd|runde]": "to end", "bis rundenende": "to end",
    f"bis auf|zu {_DIE} {_LAST} # {_M}": "to last #1 sts", f"bis # {_M} vor ende|rundenende|reihenende|schluss": "to last #1 sts",
    f"bis {_LAST} # {_M}": "to last #1 sts", "über die ganze runde|reihe": "around",
    "[auf|an] [der|die] andere|anderen|gegenüberliegende|gegenüberliegenden seite [der] [luftmaschenkette|lm-kette|lm|kette]": "on other side of ch",
    "auf der unterseite|rückseite [der] [luftmaschenkette|lm-kette]": "on other side of ch",
    "der vorrunde|vorrd|vorreihe|vorrh": "~", "der vorherigen runde|reihe|rd": "~",
    # loops
    "[nur] [in|ins|durch] [die|das] hintere|hinteren [maschenglied|maschenglieder|mg|m-glied]": "in back loops only", "[nur] [in] [das|die|den] hmg|himg": "in back loops only",
    "[nur] [in|ins|durch] [die|das] vordere|vorderen [maschenglied|maschenglieder|mg|m-glied]": "in front loops only",
    "[nur] [in] [das|die|den] vmg|vomg": "in front loops only", "beide|beiden maschenglieder|maschengliedern|mg": "both loops",
    # increases and decreases
    f"# {_M} verd|verdoppeln|verdoppelt": "#1 inc", f"{_DIE} {_NEXT} {_M} verd|verdoppeln": "inc", f"{_NEXT} {_M} verd|verdoppeln": "inc",
    "verd|verdoppeln": "inc", f"# {_M} [{_TOG}] zunehmen": "#1 inc", f"# {_M} abnehmen": "#1 dec",
    f"# {_M} {_TOG} [{_MADE}]": "#1 sc tog", f"# {_TOG} [{_MADE}]": "#1 sc tog", f"# % {_TOG} [{_MADE}]": "#1 %1 tog",
    f"# x|mal 2 {_M} {_TOG} [{_MADE}]": "#1 dec", f"# x|mal 2 fm {_TOG} [{_MADE}]": "#1 dec",
    f"immer|stets 2 {_M} {_TOG} [{_MADE}]": "dec around", f"immer|stets # {_M} {_TOG} [{_MADE}]": "(#1 sc tog) around", f"{_TOG} {_MADE}": "tog", _TOG: "tog",
    "zusammengehäkelt": "tog", f"# {_M} gleichmäßig verteilt zunehmen": "inc #1 evenly",
    f"# {_M} gleichmäßig verteilt abnehmen": "dec #1 evenly", "gleichmäßig verteilt": "evenly",
    "# zun|zunahmen gleichmäßig verteilt": "inc #1 evenly", "# abn|abnahmen gleichmäßig verteilt": "dec #1 evenly",
    # skips, chains, turns
    f"# {_M}|lm auslassen|überspringen|übergehen|freilassen": "sk #1 sts", f"{_NEXT} {_M} auslassen|überspringen": "sk next sts",
    f"eine|1 {_M} auslassen|überspringen": "sk 1 sts", "auslassen|überspringen # [m]": "sk #1 sts",
    "[arbeit] wenden|wende": "turn", "nicht wenden": "do not turn",
    f"{_M} unbehäkelt|unbearbeitet [lassen|stehen]": "sts unworked", f"[die] restliche|restlichen {_M} unbehäkelt|unbearbeitet|stilllegen [lassen|stehen]": "leave rem sts unworked",
    f"restliche|restlichen {_M}": "rem sts", f"übrige|übrigen {_M}": "rem sts",
    # repeats
    f"ab * [noch] # x|mal [{_REP}]": "rep from * #1 times", f"ab * [fortlaufend|stets|immer] {_REP}": "rep from * around",
    f"ab * noch # x|mal [{_REP}]": "rep from * #1 more times", f"von * bis * # x|mal [{_REP}]": "rep from * to * #1 times",
    f"von * bis * [fortlaufend|stets|immer] {_REP}": "rep from * around", f"noch # x|mal [{_REP}]": "#1 more times",
    f"ab * [bis] [zum] ende|rundenende {_REP}": "rep from * around", f"# x|mal [insgesamt] {_REP}": "#1 times", "mal": "times", "einmal": "once",
    "zweimal": "twice", "dreimal": "3 times", f"insgesamt # x|mal [{_REP}]": "#1 times", f"fortlaufend {_REP}": "around",
    f"{_RD} # bis|–|- # [#] [x|mal] {_REP}": "rep Rnds #1-#2", f"{_RD} # {_REP}": "rep Rnd #1", f"{_RD} # und # {_REP}": "rep Rnds #1, #2",
    f"{_RD} # bis|–|- # # x|mal {_REP}": "rep Rnds #1-#2 #3 times", f"{_RD} # # x|mal {_REP}": "rep Rnd #1 #2 times",
    f"{_LAST} {_RD} [#] [x|mal] {_REP}": "rep last rnd", f"wie [in] [{_DIE}] {_RD} #": "as Rnd #1", f"wie [in] [{_DIE}] #. {_RD}": "as Rnd #1",
    f"wie [in] [{_DIE}] {_LAST} {_RD}": "as last rnd", "wie reihe #": "as Row #1", "wie": "~as", _REP: "rep",
    "ohne zunahmen|zunahme|abnahmen|veränderung|änderung|zuzunehmen [weiterhäkeln|häkeln]": "work even",
    "ohne zu-|zu - und|oder abnahmen|abnahme": "work even", "unverändert|gerade [weiterhäkeln|häkeln|hochhäkeln]": "work even",
    # colours
    "mit|in [der] farbe|fb @": "with color @1", "farbe|fb @": "color @1", "[zu|auf] farbe|fb @ wechseln": "change to color @1",
    "zu|auf @ wechseln": "change to @1", "farbwechsel zu|auf|nach [farbe] @": "change to @1", "wechsel|wechseln zu|auf [farbe] @": "change to @1",
    "farbwechsel|farbe wechseln": "change color", "in der letzten m|masche": "in last sts",
    # doings
    "[den|die] [restlichen] faden abschneiden": "fasten off", "faden abschneiden|kappen": "fasten off", "[den] faden vernähen": "weave in the end",
    "fäden vernähen": "weave in ends", "[alle] fäden vernähen": "weave in ends", "vernähen": "weave in",
    "[einen] [langen] faden [zum annähen] lassen|hängenlassen|stehenlassen": "leave a tail", "[langen|langes] fadenende|endfaden [hängen|stehen] lassen": "leave a tail",
    "beenden|abketten": "fasten off", "stopfen|ausstopfen|füllen|befüllen|nachstopfen|weiterstopfen": "!stuff", "[fest|gut|leicht] mit [füllwatte|watte] [fest] [ausstopfen|stopfen|füllen]": "!stuff",
    "nicht stopfen|ausstopfen|füllen": "!do not stuff", "füllwatte|watte|füllmaterial": "stuffing",
    "einsetzen|anbringen|befestigen|einstecken|montieren": "!insert", "sicherheitsaugen|augen": "safety eyes", "abstand": "apart",
    "schließen|zusammenziehen|zuziehen": "!close", "annähen|aufnähen|zusammennähen|festnähen|aufsticken|sticken|ansticken|nähen": "!sew",
    "flach drücken|legen": "!flatten", "zusammenlegen|falten": "!fold", "maschenmarkierer [setzen|einsetzen|anbringen|versetzen]": "place marker", "markierer [setzen]": "place marker",
    "[durch] beide lagen|schichten": "through both layers", "[in] spiralrunden|spirale [häkeln|arbeiten]": "work in spiral", "in runden häkeln|weiterhäkeln": "work in rounds",
    "zwischen": "between", "knopf|knöpfe": "~buttons", "perle|perlen|holzperlen": "~beads", "draht": "~wire",
    "magnet|magnete": "~magnet", "glöckchen|rassel": "~bell", "kordel|schnur": "~cord", "hinreihen": "RS",
    # small words
    "häkeln|arbeiten|gehäkelt|weiterhäkeln": "~", "und|u|sowie": "~and", "dann|danach|anschließend": "~then", "je|jeweils": "~",
    "von|vom|aus": "~of", "mit": "~with", "in|im|ins": "~in", "ein|eine|einen|einem|einer|eines": "~a", "insgesamt": "total", "gesamt": "total",
    "noch": "~", "den|die|das|dem|der|des": "~the", "zum|zur|zu": "~to", "rest": "rest", "farbe": "color",
    "fortsetzung": "continued", "[#] mal häkeln|arbeiten": "make #1", "# x häkeln|arbeiten": "make #1", "# stück": "make #1", "# mal": "#1 times",
    "körper": "Körper", _M: "sts", "lm-bogen|lm-bögen|luftmaschenbogen": "ch sp",
}  # fmt: skip

# "Every 3rd stitch doubled" is a trade phrase for (2 sc, inc) around.
_NUMBERED = {
    f"[{_IN}] jede #. {_M} verd|verdoppeln|zunehmen": "every inc", f"jede #. {_M} zun|zunahme": "every inc",
    f"jede #. und #. {_M} {_TOG} [{_MADE}]": "every dec", f"{_IN} jede #. {_M} 2 fm|m|maschen": "every inc",
    f"2 fm {_IN} jede #. {_M}": "every inc",
}

_NAMES = {
    "sc": ("fM", "feste Masche"), "hdc": ("hStb", "halbes Stäbchen"), "dc": ("Stb", "Stäbchen"), "tr": ("DStb", "Doppelstäbchen"),
    "dtr": ("DrStb", "Dreifachstäbchen"), "sl st": ("Km", "Kettmasche"), "ch": ("Lm", "Luftmasche"),
    "inc": ("Zun", "Zunahme, 2 fM in eine M"), "dec": ("Abn", "Abnahme, 2 fM zusammen abmaschen"), "rsc": ("Krebsm", "Krebsmasche"),
    "bobble": ("Noppe", "Noppe"), "popcorn": ("Popcornmasche", "Popcornmasche"), "cluster": ("Büschelmasche", "Büschelmasche"),
    "picot": ("Pikot", "Pikot"), "sk": ("auslassen", "Masche auslassen"),
}  # fmt: skip

_FURTHER = {
    "M": "Masche (stitch)", "Rd": "Runde (round)", "R": "Reihe (row)", "MR": "magischer Ring (magic ring)", "FR": "Fadenring (magic ring)",
    "hMg": "hinteres Maschenglied (back loop)", "vMg": "vorderes Maschenglied (front loop)", "wdh": "wiederholen (repeat)",
    "zus": "zusammen (together)", "abm": "abmaschen (work together)", "verd": "verdoppeln (increase)", "Wlm": "Wendeluftmasche (turning chain)",
    "Hinr": "Hinreihe (right side row)", "Rückr": "Rückreihe (wrong side row)",
}  # fmt: skip

_HEADERS = {
    "titel": "Title", "begriffe": "Terms", "garn": "Yarn", "wolle": "Yarn", "farbe": "Color", "häkelnadel": "Hook", "nadel": "Hook",
    "nadelstärke": "Hook", "maschenprobe": "Gauge", "füllung": "Stuffing", "füllwatte": "Stuffing", "augen": "Eyes",
    "sicherheitsaugen": "Eyes", "zubehör": "Notions", "außerdem": "Notions", "material": "Notions", "größe": "Finished size",
    "fertige größe": "Finished size", "abkürzungen": "Abbreviations", "spezialmaschen": "Special stitch", "wendeluftmaschen": "Turning chain",
    "schwierigkeit": "Level", "schwierigkeitsgrad": "Level", "entwurf": "Designer", "design": "Designer", "anleitung von": "Designer",
    "datum": "Date", "lizenz": "Licence", "pflege": "Care", "hinweise": "Notes", "hinweis": "Notes", "hauptfarbe": "Main color",
}  # fmt: skip

GERMAN = OtherTerms(
    "de", "German", _STITCHES, _PHRASES, _NAMES, _NUMBERED, _FURTHER, _HEADERS,
    ("fertigstellung", "zusammennähen", "fertigstellen", "zusammenbau", "zusammensetzen", "ausarbeitung", "ausarbeiten", "gesicht", "details", "montage"),
)  # fmt: skip
