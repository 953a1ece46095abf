"""What is written on a drawn page, and where."""

from bot.pictures.page import Box, Page


def text_boxes(page: Page) -> list[tuple[str, Box]]:
    """What is written where, from the artists themselves."""
    renderer = page.canvas.get_renderer()
    found = []
    for written in page.axes.texts:
        extent = written.get_window_extent(renderer)
        box = Box(extent.x0, page.height - extent.y1, extent.x1, page.height - extent.y0)
        found.append((written.get_text(), box))
    return found
