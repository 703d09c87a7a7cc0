"""Use cases: what a person wants done, each a verb.

The one room that touches disk, clock and processes; everything it computes, draws or lays out
it asks of the rooms below. ``load_plan`` reads a plan file, ``compute`` all its readings,
``computation_document`` turns those into plain data for other programs, ``write_book`` and
``write_drawings`` make files, ``save_text`` replaces a plan so that nothing is ever lost, and
``DeskTools`` gives the live page the same over one file.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boomwright.app.candidates import make_searched
    from boomwright.app.computing import (
        USUAL_POINTS,
        USUAL_REFERENCE,
        Computation,
        compute,
        exceeded_limits,
    )
    from boomwright.app.cost import Costing, price_plan
    from boomwright.app.demo import Demo, write_demo
    from boomwright.app.desk_tools import DeskTools
    from boomwright.app.document import (
        computation_document,
        fault_document,
        verdict_document,
    )
    from boomwright.app.document_of_cost import cost_document
    from boomwright.app.document_of_feed import feed_document
    from boomwright.app.document_of_improve import bands_document, improve_document
    from boomwright.app.document_of_permits import permits_document
    from boomwright.app.document_of_raising import raising_document
    from boomwright.app.document_of_reach import reach_document
    from boomwright.app.document_of_structure import structure_document
    from boomwright.app.drawings import (
        write_drawings,
        write_figures,
        write_reach_figures,
        write_touchstone,
    )
    from boomwright.app.element_fixes import FixOffer, take_fix
    from boomwright.app.feed import exceeded_feed_limits, feed_plan, feed_touchstone
    from boomwright.app.feed_results import FeedResult
    from boomwright.app.files import (
        STANDARD_INPUT,
        FileRefusedError,
        LoadedPlan,
        load_plan,
        previous_path,
        read,
        save_bytes,
        save_text,
    )
    from boomwright.app.frontier import TradeOff, ask_trade_off, read_trade_off, trade_off_document
    from boomwright.app.improve import ImproveResult, improve_plan
    from boomwright.app.improve_book import found_for_book
    from boomwright.app.improve_checkpoint import checkpoint_path
    from boomwright.app.improve_clock import SearchProgress
    from boomwright.app.improve_figures import write_comparison, write_trade_off
    from boomwright.app.improve_record import keep_found
    from boomwright.app.making import Paper, read_sources, write_book
    from boomwright.app.permits import PermitCheck, permit_plan
    from boomwright.app.raising import BeamLift, RaisingResult, raise_plan
    from boomwright.app.reach import exceeded_reach_limits, reach_plan, read_coastlines
    from boomwright.app.reach_book import reach_for_book
    from boomwright.app.reach_results import ReachResult
    from boomwright.app.several_bands import BandsResult, improve_bands
    from boomwright.app.starting import (
        RequestError,
        Wishes,
        make_plan,
        make_starter,
        read_frequencies,
        read_resistance,
        refuse_existing,
    )
    from boomwright.app.structure import StructureCheck, structure_plan
    from boomwright.app.tuning import tune_plan, tuning_for_book
    from boomwright.app.tuning_json import tuning_document
    from boomwright.app.tuning_results import TuneResult
    from boomwright.app.verdict import judge_plan
    from boomwright.app.work_files import work_for_book, write_work

# Loaded when first used: a command waits only for the rooms it needs.
_HOMES = {
    "boomwright.app.computing": (
        "USUAL_POINTS",
        "USUAL_REFERENCE",
        "Computation",
        "compute",
        "exceeded_limits",
    ),
    "boomwright.app.cost": (
        "Costing",
        "price_plan",
    ),
    "boomwright.app.document_of_cost": ("cost_document",),
    "boomwright.app.desk_tools": ("DeskTools",),
    "boomwright.app.document": (
        "computation_document",
        "fault_document",
        "verdict_document",
    ),
    "boomwright.app.element_fixes": (
        "FixOffer",
        "take_fix",
    ),
    "boomwright.app.feed": (
        "exceeded_feed_limits",
        "feed_plan",
        "feed_touchstone",
    ),
    "boomwright.app.document_of_feed": ("feed_document",),
    "boomwright.app.feed_results": ("FeedResult",),
    "boomwright.app.files": (
        "STANDARD_INPUT",
        "FileRefusedError",
        "LoadedPlan",
        "load_plan",
        "previous_path",
        "read",
        "save_bytes",
        "save_text",
    ),
    "boomwright.app.frontier": (
        "TradeOff",
        "ask_trade_off",
        "read_trade_off",
        "trade_off_document",
    ),
    "boomwright.app.improve": (
        "ImproveResult",
        "improve_plan",
    ),
    "boomwright.app.improve_clock": ("SearchProgress",),
    "boomwright.app.improve_checkpoint": ("checkpoint_path",),
    "boomwright.app.document_of_improve": (
        "bands_document",
        "improve_document",
    ),
    "boomwright.app.improve_book": ("found_for_book",),
    "boomwright.app.improve_record": ("keep_found",),
    "boomwright.app.improve_figures": (
        "write_comparison",
        "write_trade_off",
    ),
    "boomwright.app.demo": ("Demo", "write_demo"),
    "boomwright.app.drawings": (
        "write_drawings",
        "write_figures",
        "write_reach_figures",
        "write_touchstone",
    ),
    "boomwright.app.making": ("Paper", "read_sources", "write_book"),
    "boomwright.app.permits": (
        "PermitCheck",
        "permit_plan",
    ),
    "boomwright.app.document_of_permits": ("permits_document",),
    "boomwright.app.raising": (
        "BeamLift",
        "RaisingResult",
        "raise_plan",
    ),
    "boomwright.app.document_of_raising": ("raising_document",),
    "boomwright.app.reach": (
        "exceeded_reach_limits",
        "reach_plan",
        "read_coastlines",
    ),
    "boomwright.app.reach_book": ("reach_for_book",),
    "boomwright.app.document_of_reach": ("reach_document",),
    "boomwright.app.reach_results": ("ReachResult",),
    "boomwright.app.several_bands": (
        "BandsResult",
        "improve_bands",
    ),
    "boomwright.app.candidates": ("make_searched",),
    "boomwright.app.starting": (
        "RequestError",
        "Wishes",
        "make_plan",
        "make_starter",
        "read_frequencies",
        "read_resistance",
        "refuse_existing",
    ),
    "boomwright.app.structure": (
        "StructureCheck",
        "structure_plan",
    ),
    "boomwright.app.document_of_structure": ("structure_document",),
    "boomwright.app.tuning": ("tune_plan", "tuning_for_book"),
    "boomwright.app.tuning_json": ("tuning_document",),
    "boomwright.app.tuning_results": ("TuneResult",),
    "boomwright.app.verdict": ("judge_plan",),
    "boomwright.app.work_files": (
        "work_for_book",
        "write_work",
    ),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "STANDARD_INPUT",
    "USUAL_POINTS",
    "USUAL_REFERENCE",
    "BandsResult",
    "BeamLift",
    "Computation",
    "Costing",
    "Demo",
    "DeskTools",
    "FeedResult",
    "FileRefusedError",
    "FixOffer",
    "ImproveResult",
    "LoadedPlan",
    "Paper",
    "PermitCheck",
    "RaisingResult",
    "ReachResult",
    "RequestError",
    "SearchProgress",
    "StructureCheck",
    "TradeOff",
    "TuneResult",
    "Wishes",
    "ask_trade_off",
    "bands_document",
    "checkpoint_path",
    "computation_document",
    "compute",
    "cost_document",
    "exceeded_feed_limits",
    "exceeded_limits",
    "exceeded_reach_limits",
    "fault_document",
    "feed_document",
    "feed_plan",
    "feed_touchstone",
    "found_for_book",
    "improve_bands",
    "improve_document",
    "improve_plan",
    "judge_plan",
    "keep_found",
    "load_plan",
    "make_plan",
    "make_searched",
    "make_starter",
    "permit_plan",
    "permits_document",
    "previous_path",
    "price_plan",
    "raise_plan",
    "raising_document",
    "reach_document",
    "reach_for_book",
    "reach_plan",
    "read",
    "read_coastlines",
    "read_frequencies",
    "read_resistance",
    "read_sources",
    "read_trade_off",
    "refuse_existing",
    "save_bytes",
    "save_text",
    "structure_document",
    "structure_plan",
    "take_fix",
    "trade_off_document",
    "tune_plan",
    "tuning_document",
    "tuning_for_book",
    "verdict_document",
    "work_for_book",
    "write_book",
    "write_comparison",
    "write_demo",
    "write_drawings",
    "write_figures",
    "write_reach_figures",
    "write_touchstone",
    "write_trade_off",
    "write_work",
]


def __getattr__(name: str) -> Any:
    if name in _HOME_OF:
        return getattr(import_module(_HOME_OF[name]), name)
    message = f"module 'boomwright.app' has no attribute {name!r}"
    raise AttributeError(message)


def __dir__() -> list[str]:
    return sorted(__all__)
