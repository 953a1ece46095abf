"""Memory that is free given back to the system, where the C library can.

A morning's looks need much for a moment. glibc keeps a heap a thread, up to eight a core, and each
stays as large as it ever was: a program that runs for weeks would hold the sum of all of them. And
what points at itself, such as a call that was given up, is looked for after so many new objects
only. What is large must not hang on it: figures of cells that did heaped up to 170 MB.
"""

from __future__ import annotations

import asyncio
import ctypes
import gc
from typing import Final

#: The parameter's number, and how many heaps there are then; Python's threads take turns anyway.
_ARENA_MAX: Final = -8
_HEAPS: Final = 1
_EVERY_S: Final = 60.0


def keep_small(loop: asyncio.AbstractEventLoop) -> None:
    """Share one heap from now on, and give back what is free of it every minute."""
    library = ctypes.CDLL(None)
    can_trim = hasattr(library, "mallopt") and hasattr(library, "malloc_trim")
    if can_trim:
        library.mallopt(_ARENA_MAX, _HEAPS)

    def give_back() -> None:
        # What is older was there at the last time too: looking through that holds everybody up.
        gc.collect(1)
        if can_trim:
            library.malloc_trim(0)
        loop.call_later(_EVERY_S, give_back)

    loop.call_later(_EVERY_S, give_back)


def keep_what_is_loaded() -> None:
    """Leave what is loaded by now out of all looking for garbage: that held up a turn by 0.3 s."""
    gc.collect()
    gc.freeze()
