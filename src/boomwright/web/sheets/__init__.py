"""The sheets of the page, in the order of the job. A sheet is one module and one context."""

from boomwright.web.sheets.beam import BEAM
from boomwright.web.sheets.beam_context import BeamContext
from boomwright.web.sheets.frame_context import FrameContext, Mark
from boomwright.web.sheets.sheet import Paint, Sheet

#: every sheet there is, in the order of the job
SHEETS: tuple[Sheet, ...] = (BEAM,)

__all__ = ["BEAM", "SHEETS", "BeamContext", "FrameContext", "Mark", "Paint", "Sheet"]
