"""The desk: edits keep the owner's text, undo returns it, saving overwrites nobody's work."""

from __future__ import annotations

import math
import threading
import time

import pytest

from bent_plans import hexagon
from boomwright.base import PlanError
from boomwright.plan.shapes import shape_plan
from boomwright.web.edits import Act, Corner, Lengthen, Move, Raise, Write
from boomwright.web.form_edits import Fill
from fakes.desk import PLAN, fake_desk


def act(desk, action):
    desk.apply(Act(action=action), gesture=0)


def test_moving_changes_one_value_and_keeps_comments_and_the_owners_unit():
    desk = fake_desk()
    desk.apply(Move(beam=0, element=1, position=2.75), gesture=0)
    assert desk.plan.beams[0].elements[1].position == pytest.approx(2.75, abs=1e-4)
    assert "# room for the clamp" in desk.text
    changed = [
        (old, new)
        for old, new in zip(PLAN.splitlines(), desk.text.splitlines(), strict=True)
        if old != new
    ]
    assert len(changed) == 1
    assert "2.75 m" in changed[0][1]


@pytest.mark.parametrize("element", [0, 1, 2])
def test_lengthening_works_for_tubes_and_for_the_short_form(element):
    desk = fake_desk()
    desk.apply(Lengthen(beam=0, element=element, length=10.0), gesture=0)
    assert desk.plan.beams[0].elements[element].length == pytest.approx(10.0, abs=2e-4)


def test_edits_of_one_gesture_are_one_step_of_undo():
    desk = fake_desk()
    for position in (2.61, 2.62, 2.63):
        desk.apply(Move(beam=0, element=1, position=position), gesture=7)
    desk.apply(Raise(beam=0, height=18.0), gesture=8)
    assert desk.undo_label == "height of 20m changed"
    act(desk, "undo")
    assert desk.undo_label == "driven moved"
    assert desk.plan.beams[0].elements[1].position == pytest.approx(2.63)
    act(desk, "undo")
    assert desk.text == PLAN
    act(desk, "redo")
    act(desk, "redo")
    assert desk.plan.beams[0].height == pytest.approx(18.0)
    assert not desk.redo_label


def test_an_edit_after_undo_forgets_what_was_undone():
    desk = fake_desk()
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    act(desk, "undo")
    desk.apply(Raise(beam=0, height=12.0), gesture=0)
    act(desk, "redo")
    assert desk.plan.beams[0].height == pytest.approx(12.0)


def test_undo_with_nothing_to_take_back_changes_nothing():
    desk = fake_desk()
    act(desk, "undo")
    assert desk.revision == 0
    assert desk.text == PLAN


@pytest.mark.parametrize(
    ("place", "text", "word"),
    [
        ("beam[0].element[1].at", "2.6", "unit"),
        ("beam[0].element[1].at", "2.6 MHz", "length"),
        ("beam[0].element[2].length", "ten metres", "number"),
        ("beam[0].element[0].half[0][1]", "5 apples", "apples"),
        ("beam[0].height", "", "empty"),
    ],
)
def test_a_bad_value_is_refused_with_place_and_remedy_and_the_plan_stays(place, text, word):
    desk = fake_desk()
    with pytest.raises(PlanError) as caught:
        desk.apply(Write(place=place, text=text), gesture=0)
    fault = caught.value.faults[0]
    assert word in f"{fault.message} {fault.remedy}"
    assert fault.remedy
    assert desk.text == PLAN
    assert not desk.undo_label


def test_typed_words_are_kept_as_typed():
    desk = fake_desk()
    desk.apply(Write(place="beam[0].element[1].at", text="8 ft 6-3/8 in"), gesture=0)
    assert '"8 ft 6-3/8 in"' in desk.text
    # 8 ft 6-3/8 in = 102.375 x 25.4 mm, exact by definition of the inch (NIST SP 811).
    assert desk.plan.beams[0].elements[1].position == pytest.approx(2.600325, abs=1e-12)


def test_a_part_the_plan_does_not_have_is_refused():
    desk = fake_desk()
    for edit in (
        Move(beam=0, element=9, position=1.0),
        Lengthen(beam=4, element=0, length=9.0),
        Write(place="beam[0].element[7].length", text="9 m"),
    ):
        with pytest.raises(PlanError):
            desk.apply(edit, gesture=0)
    assert desk.text == PLAN


def test_saving_writes_once_and_says_when():
    desk = fake_desk()
    assert desk.saving.state == "saved"
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    assert desk.saving.state == "changed"
    saving = desk.save()
    assert (saving.state, saving.text) == ("saved", "saved 12:03:05")
    desk.save()
    assert desk.session.saved == [desk.text]


def test_a_full_disk_is_told_and_nothing_is_lost():
    desk = fake_desk()
    desk.session.broken_disk = True
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    saving = desk.save()
    assert saving.state == "failed"
    assert "No space left" in saving.text
    desk.session.broken_disk = False
    assert desk.save().state == "saved"
    assert desk.session.file == desk.text


def conflicted():
    desk = fake_desk()
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    desk.session.file = PLAN.replace("16 m", "11 m")
    assert desk.save().state == "conflict"
    assert desk.session.saved == []
    return desk


def test_after_a_conflict_the_files_version_can_be_taken_and_undone():
    desk = conflicted()
    act(desk, "take-file")
    assert desk.saving.state == "saved"
    assert desk.plan.beams[0].height == pytest.approx(11.0)
    act(desk, "undo")
    assert desk.plan.beams[0].height == pytest.approx(18.0)


def test_after_a_conflict_the_own_version_can_be_kept_and_undone():
    desk = conflicted()
    act(desk, "keep-mine")
    assert desk.save().state == "saved"
    assert "18" in desk.session.file
    act(desk, "undo")
    assert desk.plan.beams[0].height == pytest.approx(11.0)


def test_a_file_changed_elsewhere_is_taken_up_when_nothing_here_would_be_lost():
    desk = fake_desk()
    desk.session.file = PLAN.replace("16 m", "11 m")
    desk.look()
    assert desk.plan.beams[0].height == pytest.approx(11.0)
    assert desk.saving.state == "saved"


def test_an_unusable_file_changed_elsewhere_is_never_called_saved():
    desk = fake_desk()
    desk.session.file = PLAN.replace("16 m", "eleven")
    desk.look()
    assert (desk.saving.state, desk.plan.beams[0].height) == ("gone", 16.0)
    assert "no usable plan" in desk.saving.text
    # Put right by its owner, it is taken up like any other change.
    desk.session.file = PLAN.replace("16 m", "11 m")
    desk.look()
    assert (desk.saving.state, desk.plan.beams[0].height) == ("saved", 11.0)


def test_over_an_unusable_file_the_own_plan_can_be_kept_and_the_other_is_put_aside():
    desk = fake_desk()
    broken = desk.session.file = PLAN.replace("16 m", "eleven")
    desk.look()
    act(desk, "keep-mine")
    assert desk.save().state == "saved"
    assert desk.session.file == PLAN
    assert desk.session.aside == [broken]
    # What cannot be used is no step that undo could return to.
    assert desk.undo_label == ""


def test_a_file_that_was_deleted_is_told_and_can_be_written_again():
    desk = fake_desk()
    desk.session.file = None
    desk.look()
    assert desk.saving.state == "gone"
    assert "deleted or moved" in desk.saving.remedy
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    assert desk.save().state == "gone"
    assert desk.session.drafts == [desk.text]
    assert "test.unsaved.toml" in desk.saving.remedy
    assert "no-such-folder" not in desk.saving.remedy
    act(desk, "keep-mine")
    assert desk.save().state == "saved"
    assert desk.session.file == desk.text


def test_a_deleted_file_that_comes_back_settles_it():
    desk = fake_desk()
    desk.session.file = None
    desk.look()
    desk.session.file = PLAN
    desk.look()
    assert desk.saving.state == "saved"


def test_a_file_that_cannot_be_read_is_not_called_saved():
    desk = fake_desk()
    real = desk.session.load

    def load():
        raise PermissionError(13, "Permission denied")

    desk.session.load = load
    desk.look()
    assert (desk.saving.state, desk.saving.text) == ("failed", "not saved: Permission denied")
    # Nothing was changed here, and still the plan must lie somewhere when the program ends.
    save, desk.session.broken_disk = desk.session.broken_disk, True
    desk.save()
    assert desk.session.drafts == [PLAN]
    desk.session.load, desk.session.broken_disk = real, save
    desk.look()
    assert desk.saving.state == "saved"


def test_readings_are_computed_once_for_each_state():
    desk = fake_desk()
    assert desk.readings(0) is desk.readings(0)
    desk.apply(Raise(beam=0, height=18.0), gesture=0)
    assert desk.known_readings(0, revision=desk.revision) is None
    desk.readings(0)
    assert desk.session.computed == 2


def test_an_unusable_plan_is_refused_at_once():
    with pytest.raises(PlanError):
        fake_desk("boomwright = 1")
    with pytest.raises(PlanError):
        fake_desk("boomwright = 1")


def test_a_second_save_waits_for_a_slow_first_one_and_takes_nothing_for_a_strangers():
    desk = fake_desk()
    slow = desk.session.save
    begun = threading.Event()

    def save(text, *, expected, aside):
        begun.set()
        time.sleep(0.1)
        return slow(text, expected=expected, aside=aside)

    desk.session.save = save
    desk.apply(Raise(beam=0, height=20.0), gesture=0)
    first = threading.Thread(target=desk.save)
    first.start()
    begun.wait(5.0)
    desk.apply(Raise(beam=0, height=21.0), gesture=0)
    second = threading.Thread(target=desk.save)
    second.start()
    # A look between the two must not find a stranger's file either.
    desk.look()
    first.join()
    second.join()
    assert desk.saving.state == "saved"
    assert desk.session.file == desk.text


def test_what_is_in_conflict_is_kept_beside_the_file():
    desk = fake_desk()
    desk.apply(Raise(beam=0, height=20.0), gesture=0)
    desk.session.file = PLAN.replace("16 m", "11 m")
    assert desk.save().state == "conflict"
    assert desk.session.drafts == [desk.text]
    desk.apply(Raise(beam=0, height=22.0), gesture=0)
    desk.save()
    assert desk.session.drafts[-1] == desk.text
    assert "11 m" in desk.session.file


def test_a_corner_moves_a_point_of_the_frame_and_the_wires_on_it():
    desk = fake_desk(hexagon())
    desk.apply(Corner(beam=0, point=0, x=2.9, y=1.7), gesture=0)
    beam = desk.plan.beams[0]
    assert beam.frame.points[0].place == pytest.approx((2.9, 1.7, 0.0))
    assert {corner for each in beam.elements for corner in each.corners} >= {
        beam.frame.points[0].place
    }
    assert desk.undo_label == "point front moved"
    act(desk, "undo")
    assert desk.text == hexagon()
    with pytest.raises(PlanError):
        desk.apply(Corner(beam=0, point=9, x=0.0, y=1.0), gesture=0)


def test_the_middle_of_a_wire_takes_its_element_along():
    desk = fake_desk(shape_plan("two-square-loops", band="20 m"))
    number, point = next(
        (number, point)
        for number, point in enumerate(desk.plan.beams[0].frame.points)
        if point.name == "front bottom"
    )
    desk.apply(Corner(beam=0, point=number, x=point.place[0] + 0.1, y=0.0), gesture=0)
    driven = desk.plan.beams[0].elements[1]
    assert driven.position == pytest.approx(point.place[0] + 0.1, abs=1e-3)


def test_beams_on_one_boom_are_raised_and_turned_together():
    desk = fake_desk(shape_plan("hexagon", band="20 m", further=["15 m"], height=9.0))
    desk.apply(Raise(beam=1, height=7.5), gesture=0)
    assert [beam.height for beam in desk.plan.beams] == [7.5, 7.5]
    desk.apply(Write(place="beam[0].heading", text="120 deg"), gesture=0)
    desk.apply(Fill(place="beam[0]", values={"height": "8 m"}), gesture=0)
    assert [(beam.heading, beam.height) for beam in desk.plan.beams] == [
        (pytest.approx(math.radians(120.0)), 8.0)
    ] * 2
    # What is no height stays refused, and one step of undo takes both back.
    with pytest.raises(PlanError):
        desk.apply(Write(place="beam[1].height", text="high"), gesture=0)
    act(desk, "undo")
    assert [beam.height for beam in desk.plan.beams] == [7.5, 7.5]
