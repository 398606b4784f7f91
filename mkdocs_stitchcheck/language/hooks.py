"""Hook sizes as data: US letters and numbers, steel, Japanese and old UK sizes in millimetres.

US and old UK: Craft Yarn Council, *Standards & Guidelines for Crochet and Knitting* (2018), with the other editions'
labels as further sizes. Steel 00 and 14: seen in print; other steel sizes and the Japanese ones: from memory.
"""

from __future__ import annotations

# Letter: the millimetres it is printed beside, the usual one first.
US_LETTERS: dict[str, tuple[float, ...]] = {
    "B": (2.25, 2.0, 2.5), "C": (2.75, 2.5), "D": (3.25,), "E": (3.5,), "F": (3.75,), "G": (4.0, 4.25), "H": (5.0,),
    "I": (5.5,), "J": (6.0,), "K": (6.5, 7.0), "L": (8.0,), "M": (9.0,), "N": (9.0, 10.0), "O": (12.0,),
    "P": (11.5, 12.0, 10.0, 15.0), "Q": (16.0, 15.0), "S": (19.0,),
}
# "C-2", "M/N-13": letter and number together.
US_SIZES: dict[tuple[str, float], tuple[float, ...]] = {
    ("B", 1): (2.25, 2.0, 2.5), ("C", 2): (2.75, 2.5), ("D", 3): (3.25,), ("E", 4): (3.5,), ("F", 5): (3.75,),
    ("G", 6): (4.0,), ("G", 7): (4.5,), ("H", 8): (5.0,), ("I", 9): (5.5,), ("J", 10): (6.0,), ("K", 10.5): (6.5, 7.0),
    ("L", 11): (8.0,), ("M", 13): (9.0,), ("N", 13): (9.0, 10.0), ("N", 15): (10.0,), ("P", 15): (10.0,),
    ("P", 16): (11.5, 12.0), ("P", 19): (15.0,), ("Q", 19): (15.0,), ("S", 35): (19.0,),
}
US_NUMBERS: dict[float, tuple[float, ...]] = {
    number: sizes for (_letter, number), sizes in reversed(US_SIZES.items())
} | {7: (4.5,)}

STEEL: dict[str, float] = {
    "00": 3.5, "0": 3.25, "1": 2.75, "2": 2.25, "3": 2.1, "4": 2.0, "5": 1.9, "6": 1.8, "7": 1.65, "8": 1.5,
    "9": 1.4, "10": 1.3, "11": 1.1, "12": 1.0, "13": 0.85, "14": 0.75,
}
JAPANESE: dict[str, float] = {
    "2/0": 2.0, "3/0": 2.3, "4/0": 2.5, "5/0": 3.0, "6/0": 3.5, "7/0": 4.0, "7.5/0": 4.5, "8/0": 5.0, "9/0": 5.5,
    "10/0": 6.0,
}
OLD_UK: dict[str, float] = {
    "14": 2.0, "13": 2.25, "12": 2.75, "11": 3.0, "10": 3.25, "9": 3.5, "8": 4.0, "7": 4.5, "6": 5.0, "5": 5.5,
    "4": 6.0, "3": 6.5, "2": 7.0, "0": 8.0, "00": 9.0, "000": 10.0,
}

THICKEST_MM = 60.0  # beyond this a slip: common practice, no source
