"""Right patterns at random, and what they count to, by hands that know nothing of the checker.

``generate(seed)`` gives a :class:`~tests.oracle.page.Case`: a Markdown page and what each written line uses, makes and
states. ``python -m tests.oracle --rounds 10000 --seed 1`` compares with the checker. Add a form as one entry of a table
in ``forms.py`` (words), ``repeats.py``, ``labels.py`` or ``counts.py``; a kind of round in ``rounds.py`` or
``rows.py``; a kind of piece in ``pieces.py`` or ``limbs.py``; lace in ``lace.py`` and ``lace_rows.py``.
"""

from .page import Case, generate

__all__ = ["Case", "generate"]
