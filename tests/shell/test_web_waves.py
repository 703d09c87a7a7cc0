"""The Waves sheet: page, JSON, socket, and nothing of a hostile plan in its pictures."""

from __future__ import annotations

import base64
import dataclasses
import json

import numpy as np
import pytest
from starlette.testclient import TestClient

from boomwright.web.sheets.waves_context import FieldGrid, ShareRow, Solid, WavesContext
from fakes.client import HOME, client_of
from fakes.desk import PLAN, fake_desk


def make(desk=None) -> TestClient:
    return client_of(desk or fake_desk())


@pytest.fixture(scope="module")
def document():
    return make().get("/waves.json").json()


@pytest.mark.parametrize("kind", [WavesContext, FieldGrid, ShareRow, Solid])
def test_every_context_field_is_documented(kind):
    for field in dataclasses.fields(kind):
        assert field.metadata["help"].endswith(".")


def test_the_json_holds_the_documented_context_and_the_frame(document):
    names = {field.name for field in dataclasses.fields(WavesContext)}
    assert set(document) == names | {"frame"}
    assert [share["role"] for share in document["shares"]] == ["reflector", "driven", "director"]
    assert "forward" in document["sentence"]


def test_the_grids_unpack_to_the_solvers_field(document):
    desk = fake_desk()
    beam, ground = desk.plan.beams[0], desk.plan.site.ground
    picture = desk.session.waves(beam=beam, ground=ground, frequency=beam.design_frequency)
    for name in ("level", "upright"):
        grid, plane = document["grids"][name], getattr(picture, name)
        flat = np.frombuffer(base64.b64decode(grid["values"]), dtype="<f4")
        values = flat.reshape(3, grid["across"][2], grid["along"][2], 2)
        np.testing.assert_allclose(
            values[..., 0] + 1j * values[..., 1], plane.shares, rtol=1e-6, atol=1e-9
        )


def test_the_page_comes_at_once_and_the_wave_follows_on_the_socket():
    client = make()
    html = client.get("/waves")
    assert html.status_code == 200
    assert "Computing the wave" in html.text
    with client.websocket_connect(
        HOME.replace("http", "ws") + "/waves/live?of=0", headers={"origin": HOME}
    ) as socket:
        while True:
            message = json.loads(socket.receive_text())
            if message["kind"] == "full":
                break
        assert set(message["waves"]["grids"]) == {"level", "upright"}
        assert message["waves"]["solid"]["gain_dbi"]


def test_a_refused_geometry_leaves_an_explained_page():
    desk = fake_desk()
    desk.session.refuse_shorter_than = 10.0
    document = make(desk).get("/waves.json").json()
    assert document["solid"] is None
    assert "shorter than its feed gap" in document["frame"]["faults"][0]["message"]


def test_a_hostile_plan_stays_text():
    hostile = PLAN.replace("Three elements for a test", "<script>alert(1)</script>")
    document = make(fake_desk(hostile)).get("/waves.json").json()
    for svg in document["figures"].values():
        assert "<script" not in svg
