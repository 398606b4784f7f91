"""The technical editor's checks, in the order in which they run; each says in its own module what, why and when."""

from __future__ import annotations

from .abbreviation_lists import check_abbreviations, check_explained, check_ring_and_color
from .assembly import check_attached, check_how_many, check_numbers_sewn, check_pairs, check_places, check_seams
from .beginning_chains import check_beginning_chains
from .blocks_alike import check_blocks
from .details import check_details, check_gauge, check_hooks, check_level, check_notion_sizes
from .multiples import check_multiples
from .named_chains import check_named_chains
from .order import check_closing, check_cut_colors, check_ends, check_fastened_off, check_markers
from .readers import check_for_readers, check_marks, check_other_names
from .sides import check_joins, check_sides
from .size_order import check_counts_left_out, check_lengths, check_size_lists, check_size_order
from .style import check_style

# One fault of ours in one of them leaves the others standing: each is run by itself.
EDITING_CHECKS = (
    check_fastened_off, check_ends, check_closing, check_markers, check_cut_colors,
    check_places, check_how_many, check_numbers_sewn, check_seams, check_attached, check_pairs,
    check_sides, check_joins, check_named_chains, check_abbreviations, check_explained, check_ring_and_color, check_style,
    check_details, check_notion_sizes, check_hooks, check_level, check_gauge,
    check_multiples, check_blocks, check_beginning_chains, check_size_order, check_size_lists, check_counts_left_out, check_lengths, check_for_readers, check_marks, check_other_names,
)
