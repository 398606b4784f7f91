"""Which text each PDF of a folder was made of, kept beside them, so that a later build can tell what has changed."""

from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from ..files import write_whole
from .orders import Order

NAME = "made-from.json"

NEW, SAME, LOOKS, TEXT = "new", "same", "looks", "text"


@dataclass(slots=True)
class Record:
    """The record of one folder. ``state`` tells what became of an order since its PDF was made there:

    ``new``: there is none yet; ``same``; ``looks``: only pictures or style changed; ``text``: what is said changed.
    """

    folder: Path
    made: dict[str, dict[str, str]]

    @classmethod
    def of(cls, folder: Path) -> Record:
        """The record in *folder*; an empty one where there is none that can be read."""
        try:
            read = json.loads((folder / NAME).read_text(encoding="utf-8"))
        except (OSError, ValueError, RecursionError):
            read = {}
        entries = read.items() if isinstance(read, dict) else ()
        return cls(folder, {str(k): {str(a): str(b) for a, b in v.items()} for k, v in entries if isinstance(v, dict)})

    def free_for(self, owner: str, others: Collection[str], name: str) -> bool:
        """Whether the file *name* may be that of *owner*: it was made for nobody else of *others*, those there still are."""
        holder = self.made.get(name, {}).get("page") or owner
        return holder == owner or holder not in others

    def has_made(self, owner: str, name: str) -> bool:
        """Whether the file *name* was made for *owner*."""
        return self.made.get(name, {}).get("page") == owner

    def state(self, order: Order) -> str:
        """What became of *order* since it was made."""
        entry = self.made.get(order.name)
        if entry is None or not (self.folder / order.name).is_file():
            return NEW
        if entry.get("text") != order.text_mark:
            return TEXT
        return SAME if entry.get("looks") == order.look_mark else LOOKS

    def keep(self, order: Order, pdf: bytes, owner: str = "") -> Path:
        """Write the PDF and note what it was made of, and for whom. Raises OSError."""
        self.folder.mkdir(parents=True, exist_ok=True)
        path = self.folder / order.name
        write_whole(path, pdf)
        self.made[order.name] = {"text": order.text_mark, "looks": order.look_mark, "page": owner}
        text = json.dumps(self.made, indent=1, sort_keys=True) + "\n"
        write_whole(self.folder / NAME, text.encode())
        return path
