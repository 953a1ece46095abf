"""Files of somebody who was erased: photos, pictures drawn for them, what was exported."""

from __future__ import annotations

import logging
import shutil
from pathlib import Path

from bot.pictures.render import PictureSpec, UnknownPicture
from jobs.uses.giving_up import Erased

log = logging.getLogger(__name__)


def delete_files(erased: Erased, chat_id: int, pictures: Path, exports: Path) -> None:
    """Delete what lay in files; to be called once the rows are gone for good.

    Pictures that somebody else was shown as well are drawn anew when they are asked for. Nothing is
    raised: what cannot be deleted is logged for whoever runs the bot.
    """
    # A photo that could not be copied lies where its sender has it, and is theirs.
    paths = [path for path in erased.photos if path.parent == pictures]
    for stored in erased.drawings:
        try:
            paths.append(pictures / PictureSpec.from_json(stored).file_name)
        except UnknownPicture:
            log.warning("a picture of an older kind was left where it lies")
    folders = [exports / f"yard-{yard_id}" for yard_id in erased.yard_ids]
    try:
        for path in paths:
            path.unlink(missing_ok=True)
        for folder in (*folders, exports / f"chat-{chat_id}"):
            if folder.exists():
                shutil.rmtree(folder)
    except OSError:
        log.exception("files of somebody who was erased could not be deleted")
