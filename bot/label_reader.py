"""Reading the words on a photo with `tesseract`, where that program is installed."""

from __future__ import annotations

import logging
import shutil
import subprocess
from pathlib import Path
from threading import Lock
from typing import Final

from bot.hearing.readers.label_photo import SeenFigure, sure_figures, words_of

log = logging.getLogger(__name__)

PROGRAM: Final = "tesseract"
#: A photo that takes longer than this is left unread [s].
_LONGEST_S: Final = 15.0
#: One photo at a time: reading takes all of a processor.
_AT_WORK: Final = Lock()


def read_label(photo: Path) -> tuple[SeenFigure, ...] | None:
    """Return what was surely read of a label's photo, nothing where that is nothing.

    None where no reader is installed. The program gets the path and nothing of our settings.
    """
    program = shutil.which(PROGRAM)
    if program is None:
        return None
    # Page segmentation 11 finds as much text as there is, in no order: labels are no page.
    call = [program, str(photo), "stdout", "--psm", "11", "-l", "eng", "tsv"]
    try:
        with _AT_WORK:
            done = subprocess.run(
                call,
                capture_output=True,
                check=True,
                timeout=_LONGEST_S,
                env={"OMP_THREAD_LIMIT": "1", "PATH": "/usr/bin:/bin"},
            )
    except (OSError, subprocess.SubprocessError) as trouble:
        log.warning("a label's photo could not be read: %s", type(trouble).__name__)
        return ()
    return sure_figures(words_of(done.stdout.decode(errors="replace")))
