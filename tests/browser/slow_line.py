"""A slow line in front of a server on this machine: so many bytes a second for all connections, and a delay."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

_PIECE = 1460
_LATE_S = 0.1  # by which this may be woken late on a busy machine without the line getting slower by it


@contextmanager
def slow_line(port: int, *, bytes_a_second: float, delay_s: float) -> Iterator[int]:
    """Yield the port at which the server behind ``port`` is reached over the slow line."""
    loop = asyncio.new_event_loop()
    free_at = 0.0
    ends: list[asyncio.StreamWriter] = []

    async def up(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        while data := await reader.read(65536):
            await asyncio.sleep(delay_s / 2)
            writer.write(data)
        writer.close()

    async def down(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        nonlocal free_at
        while data := await reader.read(_PIECE):
            free_at = max(loop.time() - _LATE_S, free_at) + len(data) / bytes_a_second
            await asyncio.sleep(max(0, free_at - loop.time()))
            loop.call_later(delay_s / 2, writer.write, data)
        await asyncio.sleep(delay_s)
        writer.close()

    async def connected(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        ends.append(writer)
        with suppress(OSError, asyncio.CancelledError):  # the reader leaves, or the line is taken down
            behind = await asyncio.open_connection("127.0.0.1", port, limit=4 * _PIECE)
            ends.append(behind[1])
            await asyncio.gather(up(reader, behind[1]), down(behind[0], writer))

    async def taken_down() -> None:
        server.close()
        others = asyncio.all_tasks() - {asyncio.current_task()}
        for task in others:
            task.cancel()
        await asyncio.gather(*others, return_exceptions=True)
        for end in ends:
            end.close()
        await asyncio.sleep(0.05)  # their sockets close in the loop's next turns

    thread = threading.Thread(target=loop.run_forever, daemon=True)  # this one has Playwright's own loop
    thread.start()
    server = asyncio.run_coroutine_threadsafe(asyncio.start_server(connected, "127.0.0.1", 0), loop).result()
    try:
        yield server.sockets[0].getsockname()[1]
    finally:
        asyncio.run_coroutine_threadsafe(taken_down(), loop).result()
        loop.call_soon_threadsafe(loop.stop)
        thread.join()
        loop.close()
