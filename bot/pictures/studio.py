"""Pictures drawn in a process of their own, so that words never wait for them.

The process is started at the first picture and told what to draw a line at a time; it ends when
nobody listens to it any more, however we end.
"""

from __future__ import annotations

import asyncio
import json
import logging
import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import Final

from bot.pictures.render import PictureSpec, render

log = logging.getLogger(__name__)

#: A picture that takes longer than this is given up, with the process that draws it [s].
_LONGEST_S: Final = 30.0
#: Lines of the process are paths, or reasons; of specs a zone's corners make the length.
_LONGEST_LINE: Final = 4 * 1024 * 1024


class Studio:
    """Draws pictures into a folder, one at a time, each once.

    Parameters
    ----------
    folder
        Where pictures are kept.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._process: asyncio.subprocess.Process | None = None
        self._at_work = asyncio.Lock()
        self._drawing: dict[str, asyncio.Task[Path | None]] = {}

    def drawn(self, spec: PictureSpec) -> Path | None:
        """Return a picture that was drawn before, or None."""
        path = self._folder / spec.file_name
        return path if path.exists() else None

    async def draw(self, spec: PictureSpec) -> Path | None:
        """Return the picture's file, or None where it cannot be drawn."""
        found = self.drawn(spec)
        if found is not None:
            return found
        task = self._drawing.get(spec.file_name)
        if task is None:
            task = asyncio.create_task(self._draw(spec))
            self._drawing[spec.file_name] = task
            task.add_done_callback(lambda _: self._drawing.pop(spec.file_name, None))
        return await asyncio.shield(task)

    async def close(self) -> None:
        """Draw no more."""
        tasks = list(self._drawing.values())
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        await self._end()

    async def _draw(self, spec: PictureSpec) -> Path | None:
        async with self._at_work:
            try:
                async with asyncio.timeout(_LONGEST_S):
                    answer = await self._ask(spec)
            except (TimeoutError, OSError, ValueError) as trouble:
                # Where it was raised helps nobody: the process is busy, or gone.
                log.warning("a picture (%s) was given up: %s", spec.kind, type(trouble).__name__)
                await self._end()
                return None
        if "path" not in answer:
            log.error("a picture (%s) could not be drawn: %s", spec.kind, answer.get("trouble"))
            return None
        return Path(answer["path"])

    async def _ask(self, spec: PictureSpec) -> dict[str, str]:
        if self._process is None or self._process.returncode is not None:
            self._process = await asyncio.create_subprocess_exec(
                sys.executable,
                "-m",
                __name__,
                stdin=asyncio.subprocess.PIPE,
                stdout=asyncio.subprocess.PIPE,
                limit=_LONGEST_LINE,
                # It has no need of any setting, least of all of secrets.
                env={k: v for k, v in os.environ.items() if not k.startswith("SOILBELL_")},
                # Signals are for us; it ends when we do.
                start_new_session=True,
            )
        process = self._process
        assert process.stdin is not None
        assert process.stdout is not None
        told = {"spec": spec.to_json(), "folder": str(self._folder.absolute())}
        process.stdin.write(json.dumps(told).encode() + b"\n")
        await process.stdin.drain()
        line = await process.stdout.readline()
        if not line:
            raise OSError("the process that draws has ended")
        answer: dict[str, str] = json.loads(line)
        return answer

    async def _end(self) -> None:
        process, self._process = self._process, None
        if process is None:
            return
        if process.returncode is None:
            with suppress(ProcessLookupError):
                process.kill()
        if process.stdin is not None:
            process.stdin.close()
        # To the end of its output, so that nothing of it is left open.
        await process.communicate()


def main() -> None:
    """Draw what is asked for on stdin, a line each, until there is no more."""
    os.umask(0o077)
    os.nice(10)
    for line in sys.stdin:
        asked = json.loads(line)
        try:
            path = render(PictureSpec.from_json(asked["spec"]), asked["folder"])
            answer = {"path": str(path)}
        except Exception as trouble:
            answer = {"trouble": type(trouble).__name__}
        try:
            sys.stdout.write(json.dumps(answer) + "\n")
            sys.stdout.flush()
        except BrokenPipeError:
            # Whoever asked was killed: there is nobody to tell, at the end of Python neither.
            os._exit(0)


if __name__ == "__main__":
    main()
