"""Patterns for the tests of page and sheet; designs, names and numbers are invented for this project."""

HEAD = """\
Title: Orchard mole
Terms: US
Designer: The stitchcheck developers
Version: 3
Level: easy
Yarn: light (3), 50 g = 125 m
Color A: soot, shade 12, shown as #4b4a52, 1 ball
Color B: clay pink, shown as #d9a08b, 5 g
Color C: moss, shown as olivedrab, 5 g
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
Notions: 8 mm safety eyes (2), yarn needle, stitch marker
Stuffing: polyester, about 20 g
Finished size: 9 cm long"""

BODY = """\
# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: *sc in next 2 sts, inc; rep from * around (24)
Rnds 5-7: sc in each st around (24)
> The snout points up a little; that is as it should be.
>> Photograph this one from the side."""

BODY_2 = """\
Rnd 8: (sc 3, inc) x 6
Rnds 9-20: sc in each st around (30)
Insert safety eyes between Rnds 7 and 8, with 6 stitches between them.
Rnd 21: (sc 3, dec) x 6 (24)
Stuff firmly.
Rnd 22: (sc 2, dec) x 6 (18)
Rnd 23: (sc, dec) x 6, change to color B in last st (12)
Rnd 24: dec x 6 (6)
Fasten off, leaving a 20 cm tail, and close the hole."""

PAWS = """\
# Paw (make 2, color B)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: (sc, inc) x 3 (9)
Rnds 3-6: sc around (9)
Fasten off, leaving a 30 cm tail for sewing.

# Scarf (color C)
Ch 43.
Row 1: hdc in 3rd ch from hook and in each ch across (41)
Row 2: ch 2, turn, hdc in each st across (41)
Fasten off and weave in ends.

# Making up
Sew the paws over Rnds 9 to 11 of the Body.
Tie the scarf in a knot, and sew it down."""

MOLE = (HEAD, BODY, BODY_2, PAWS)

# More rounds than fit on three pages, so that pages turn inside the piece.
LONG = (
    HEAD,
    "# Body (color A)\n"
    + "\n".join(
        f"Rnd {n}: (sc in each of the next {n % 5 + 1} stitches, inc) x 6, then look at the work from the side ({6 * n})"
        for n in range(1, 61)
    ),
    "# Tail (make 2, color B)\n" + "\n".join(f"Rnd {n}: sc in each st around (12)" for n in range(1, 41)),
)
