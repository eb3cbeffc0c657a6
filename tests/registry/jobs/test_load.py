"""Tests of `registry.jobs.load`: a job file becomes corners, or says all that is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.units import is_unknown
from sample_packs import SPECIMENS, changed_pack

JOBS = SPECIMENS / "jobs"
BAD = sorted((JOBS / "bad").glob("*.toml"))
LEAST = (JOBS / "least.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.discover()


def loaded(tmp_path: Path, registry: bw.Registry, text: str) -> bw.Job:
    """The job that a text holds."""
    return bw.load_job(written(tmp_path, text), registry)


def written(tmp_path: Path, text: str) -> Path:
    """A job file that holds a text."""
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def expectations(path: Path) -> list[str]:
    """Code and key of each problem, from the comments at a file's head."""
    lines = path.read_bytes().decode("latin-1").splitlines()
    return [line.removeprefix("# expect: ") for line in lines if line.startswith("# expect: ")]


@pytest.mark.parametrize("path", BAD, ids=[path.stem for path in BAD])
def test_a_bad_job_says_exactly_what_is_wrong(path: Path, registry: bw.Registry) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        bw.load_job(path, registry)

    problems = getattr(caught.value, "problems", (caught.value,))
    assert sorted(f"{p.code} {p.key}".strip() for p in problems) == sorted(expectations(path))
    assert {p.file for p in problems} == {str(path)}
    assert caught.value.exit_code == 2


@pytest.mark.parametrize("path", BAD, ids=[path.stem for path in BAD])
def test_a_problem_points_at_its_line(path: Path, registry: bw.Registry) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        bw.load_job(path, registry)

    lines = path.read_bytes().decode("latin-1").split("\n")
    for problem in getattr(caught.value, "problems", (caught.value,)):
        if problem.code in {"S202", "F104"} or not problem.key:
            continue
        innermost = problem.key.rpartition(".")[2].partition("[")[0]
        table = problem.key.partition(".")[0]
        assert innermost in lines[problem.line - 1] or table in lines[problem.line - 1]


def test_the_least_job_keeps_everything_standard(registry: bw.Registry) -> None:
    job = bw.load_job(JOBS / "least.toml", registry)

    assert (job.title, job.variant) == ("Job", "")
    for corner, name in zip(job.corners, ("front left", "front right"), strict=True):
        standard = registry.setup("fells:chassis/short", corner=name)
        assert corner == bw.JobCorner(setup=standard, present=standard, wanted=bw.Wanted())


def test_a_corner_at_which_nothing_changes_is_one_setup(
    tmp_path: Path, registry: bw.Registry
) -> None:
    assert all(
        corner.setup is corner.present for corner in loaded(tmp_path, registry, LEAST).corners
    )
    swapped = f'{LEAST}\n[parts]\ndamper = "fells:damper/short"\n'
    for corner in loaded(tmp_path, registry, swapped).corners:
        assert corner.setup.damper != corner.present.damper


def test_every_key_is_read(registry: bw.Registry) -> None:
    job = bw.load_job(JOBS / "every-key.toml", registry)
    left, right = job.corners

    assert job.title == "Everything"
    assert [c.setup.bar.id for c in job.corners] == ["fells:bar/short-firm"] * 2
    assert [c.present.bar.id for c in job.corners] == ["fells:bar/short-soft"] * 2
    assert [c.setup.damper.id for c in job.corners] == [
        "fells:damper/standard",
        "fells:damper/short",
    ]
    assert [(c.present.arm_tooth, c.present.anchor_tooth) for c in job.corners] == [
        (4, -2),
        (3, -2),
    ]
    assert {c.present.nut_turns.magnitude for c in job.corners} == {-1.5}
    assert left.wanted == bw.Wanted(arm_angle="2.5 deg")
    assert right.wanted == bw.Wanted(height="349 mm")
    assert [(c.setup.load.kind, c.setup.load.mass.magnitude) for c in job.corners] == [
        (bw.parts.LoadKind.SPRUNG, 291.0),
        (bw.parts.LoadKind.SCALE_READING, 323.0),
    ]
    tolerances = [c.setup.load.about["mass"].tolerance for c in job.corners]
    assert tolerances == [bw.Quantity(2.0, "kg"), bw.Quantity(1.0, "kg")]


def test_a_loads_figure_says_where_it_was_read(registry: bw.Registry) -> None:
    path = JOBS / "every-key.toml"
    figure = bw.load_job(path, registry).corners[0].setup.load.about["mass"]

    assert (figure.source, figure.file) == ("caller", str(path))


@pytest.mark.parametrize(
    ("parts", "teeth"),
    [
        ("", (3, -2)),
        ('bar = "fells:bar/short-standard"', (3, -2)),
        ('damper = "fells:damper/short"', (3, -2)),
        ('bar = "fells:bar/short-firm"', (0, 0)),
    ],
)
def test_only_a_bar_that_stays_keeps_its_clocking(
    tmp_path: Path, registry: bw.Registry, parts: str, teeth: tuple[int, int]
) -> None:
    text = f"{LEAST}\n[parts]\n{parts}\n[present]\narm_tooth = 3\nanchor_tooth = -2\n"

    for corner in loaded(tmp_path, registry, text).corners:
        assert (corner.present.arm_tooth, corner.present.anchor_tooth) == (3, -2)
        assert (corner.setup.arm_tooth, corner.setup.anchor_tooth) == teeth


@pytest.mark.parametrize(
    ("part", "teeth"),
    [('arm = "fells:arm/deep-socket"', (0, -2)), ('tube = "fells:tube/middle"', (3, 0))],
)
def test_a_bar_that_stays_goes_on_by_its_blank_where_its_socket_is_another(
    tmp_path: Path, registry: bw.Registry, part: str, teeth: tuple[int, int]
) -> None:
    text = f"{LEAST}\n[parts]\n{part}\n[present]\narm_tooth = 3\nanchor_tooth = -2\n"

    for corner in loaded(tmp_path, registry, text).corners:
        assert (corner.setup.arm_tooth, corner.setup.anchor_tooth) == teeth


def test_a_load_of_one_side_leaves_the_other_standard(
    tmp_path: Path, registry: bw.Registry
) -> None:
    left, right = loaded(
        tmp_path, registry, f'{LEAST}\n[load.left]\nscale_reading = "340 kg"\n'
    ).corners

    assert left.setup.load.mass.magnitude == 340.0
    assert right.setup.load.kind is bw.parts.LoadKind.SPRUNG
    assert right.setup.load.mass == right.setup.axle.standard_mass


def test_a_wish_of_one_side_replaces_the_shared_one(tmp_path: Path, registry: bw.Registry) -> None:
    text = f'{LEAST}\n[wanted.right]\nheight = "13.75 in"\n'

    left, right = loaded(tmp_path, registry, text).corners

    assert left.wanted == bw.Wanted()
    assert right.wanted == bw.Wanted(height="13.75 in")


def test_present_load_and_planned_load_are_one(tmp_path: Path, registry: bw.Registry) -> None:
    text = f'{LEAST}\n[load]\nsprung_mass = "300 kg"\n'

    for corner in loaded(tmp_path, registry, text).corners:
        assert corner.present.load == corner.setup.load
        assert corner.setup.load.mass.magnitude == 300.0


def test_a_problem_that_both_sides_share_is_said_once(
    tmp_path: Path, registry: bw.Registry
) -> None:
    with pytest.raises(bw.DocumentError) as caught:
        loaded(tmp_path, registry, LEAST.replace("keep_standard = true", 'height = "34"'))

    assert [p.code for p in caught.value.problems] == ["Q105"]


def test_problems_of_each_side_are_told_apart(tmp_path: Path, registry: bw.Registry) -> None:
    text = f'{LEAST}\n[load.left]\nsprung_mass = "1"\n[load.right]\nsprung_mass = "2"\n'

    with pytest.raises(bw.DocumentError) as caught:
        loaded(tmp_path, registry, text)

    assert [(p.key, p.value) for p in caught.value.problems] == [
        ("load.left.sprung_mass", "1"),
        ("load.right.sprung_mass", "2"),
    ]


@pytest.mark.parametrize(
    ("code", "nearest"),
    [
        ("unknown-vehicle", "fells:chassis/short"),
        ("unknown-part", "fells:bar/short-firm"),
        ("unknown-corner", "front left"),
    ],
)
def test_an_unknown_name_comes_with_the_nearest(
    registry: bw.Registry, code: str, nearest: str
) -> None:
    with pytest.raises(bw.DocumentError) as caught:
        bw.load_job(JOBS / "bad" / f"{code}.toml", registry)

    assert nearest in caught.value.problems[0].remedy


# -- A vehicle that is named by words ------------------------------------------------


@pytest.mark.parametrize("words", ["fells short", "FLV-21 2014-05", "Short wheelbase, 2014"])
def test_words_name_the_vehicle(tmp_path: Path, registry: bw.Registry, words: str) -> None:
    by_words = loaded(tmp_path, registry, LEAST.replace("fells:chassis/short", words))

    assert by_words == loaded(tmp_path, registry, LEAST)


@pytest.mark.parametrize(
    ("words", "code", "remedy"),
    [
        ("FLV-21 2014", "L104", "add built: 2009-03 to 2014-05 or 2014-06 to 2019-11, or name"),
        ("fells shrot", "L101", "did you mean 'short'?"),
        ("short 2016", "L101", "leave out 'short' or '2016'"),
        ("!", "L101", "add words until"),
    ],
)
def test_words_that_name_no_vehicle_or_several_are_refused(
    tmp_path: Path, registry: bw.Registry, words: str, code: str, remedy: str
) -> None:
    with pytest.raises(bw.DocumentError) as caught:
        loaded(tmp_path, registry, LEAST.replace("fells:chassis/short", words))

    (problem,) = caught.value.problems
    assert (problem.code, problem.key, problem.value) == (code, "vehicle", words)
    assert problem.remedy.startswith(remedy)
    assert problem.line == LEAST[: LEAST.index("vehicle =")].count("\n") + 1


def test_words_may_stand_in_a_list_of_vehicles(tmp_path: Path, registry: bw.Registry) -> None:
    path = tmp_path / "job.toml"
    path.write_text(LEAST.replace('"fells:chassis/short"', '["fells short", "fells long"]'))

    jobs = bw.load_jobs(path, registry)

    assert [(job.variant, job.corners[0].setup.chassis.id) for job in jobs] == [
        ("vehicle fells short", "fells:chassis/short"),
        ("vehicle fells long", "fells:chassis/long"),
    ]


# -- Several in one file -------------------------------------------------------------


SEVERAL = LEAST.replace('"fells:chassis/short"', '["fells:chassis/short", "fells:chassis/long"]')
BARS = '\n[parts]\nbar = ["fells:bar/short-firm", "fells:bar/short-soft"]\n'


def test_every_combination_is_a_job(tmp_path: Path, registry: bw.Registry) -> None:
    path = tmp_path / "job.toml"
    path.write_text(SEVERAL + BARS, encoding="utf-8")

    jobs = bw.load_jobs(path, registry)

    assert [(j.corners[0].setup.chassis.id, j.corners[0].setup.bar.id) for j in jobs] == [
        (f"fells:chassis/{van}", f"fells:bar/short-{bar}")
        for van in ("short", "long")
        for bar in ("firm", "soft")
    ]
    assert jobs[0].variant == "vehicle fells:chassis/short, bar fells:bar/short-firm"


def test_several_are_refused_where_one_is_asked_for(tmp_path: Path, registry: bw.Registry) -> None:
    with pytest.raises(bw.DocumentError) as caught:
        loaded(tmp_path, registry, SEVERAL)

    assert caught.value.code == "D101"
    (problem,) = caught.value.problems
    assert (problem.code, problem.value) == ("J102", "2 variants")
    assert problem.expected == "one vehicle and one of each part"
    assert problem.remedy == "name one of each, or write a separate job for each"


def test_one_vehicle_in_two_ways_is_refused_and_names_both(
    tmp_path: Path, registry: bw.Registry
) -> None:
    twice = SEVERAL.replace("fells:chassis/long", "fells short")
    with pytest.raises(bw.DocumentError) as caught:
        bw.load_jobs(written(tmp_path, twice), registry)

    (problem,) = caught.value.problems
    assert (problem.code, problem.key, problem.value) == ("S207", "vehicle", "vehicle fells short")
    first = "vehicle fells:chassis/short"
    assert problem.expected == f"another vehicle, or other parts, than {first}"
    assert problem.remedy == "name each vehicle and each part once"


def test_too_many_combinations_are_refused_before_any_is_read(
    tmp_path: Path, registry: bw.Registry
) -> None:
    path = tmp_path / "job.toml"
    bars = ", ".join(['"fells:bar/short-firm"'] * 40)
    parts = "".join(f"{kind} = [{bars}]\n" for kind in ("arm", "bar", "tube", "damper"))
    path.write_text(f"{LEAST}\n[parts]\n{parts}", encoding="utf-8")

    with pytest.raises(bw.DocumentError) as caught:
        bw.load_jobs(path, registry)

    assert [(p.code, p.value) for p in caught.value.problems] == [("J102", "2560000 variants")]


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ('"fells:chassis/short"', "[]", "S203 vehicle"),
        ('"fells:chassis/short"', '["fells:chassis/short", 5]', "S203 vehicle"),
        ('"fells:chassis/short"', '["fells:chassis/short", "no"]', "L101 vehicle"),
        ('"fells:chassis/short"', '[["fells:chassis/short"]]', "S203 vehicle"),
    ],
)
def test_a_bad_list_of_vehicles(
    tmp_path: Path, registry: bw.Registry, old: str, new: str, problem: str
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(LEAST.replace(old, new), encoding="utf-8")

    with pytest.raises(bw.DocumentError) as caught:
        bw.load_jobs(path, registry)

    assert [f"{p.code} {p.key}" for p in caught.value.problems] == [problem]


# -- A height that was measured -------------------------------------------------------------

MEASURED = """
vehicle = "fells:chassis/short"
corners = ["front left", "front right"]

[present]
arm_tooth = 1

[load]
sprung_mass = "300 kg"

[measured]
height = "391 mm ± 2 mm"

[measured.right]
height = "388 mm ± 1 mm"
scale_reading = "331 kg ± 1 kg"

[wanted]
lower_by = "12 mm"

[wanted.right]
raise_by = "3 mm"
"""


def test_a_measured_height_belongs_to_the_corner_as_it_is_now(
    tmp_path: Path, registry: bw.Registry
) -> None:
    left, right = loaded(tmp_path, registry, MEASURED).corners
    for corner, height, tolerance in ((left, "391 mm", "2 mm"), (right, "388 mm", "1 mm")):
        reading = corner.present.reading
        assert reading is not None
        assert reading.height == bw.Quantity(height)
        assert reading.about["height"].tolerance == bw.Quantity(tolerance)
        assert reading.setup.arm_tooth == 1
        assert corner.setup.reading == reading
        # What is planned carries the load of the job.
        assert corner.setup.load.mass == bw.Quantity("300 kg")
    assert left.present.reading is not None
    assert right.present.reading is not None
    assert left.present.reading.setup.load.mass == bw.Quantity("300 kg")
    under = right.present.reading.setup.load
    assert (under.kind, under.mass) == (bw.parts.LoadKind.SCALE_READING, bw.Quantity("331 kg"))
    assert under.about["mass"].tolerance == bw.Quantity("1 kg")
    heights = [corner.wanted.height for corner in (left, right)]
    assert [height.m_as("mm") for height in heights if height is not None] == pytest.approx(
        [379.0, 391.0]
    )


@pytest.mark.parametrize(
    ("change", "key"),
    [
        (('height = "391 mm ± 2 mm"', 'scale_reading = "300 kg"'), "measured"),
        (('[measured]\nheight = "391 mm ± 2 mm"', ""), "wanted.lower_by"),
        (('"331 kg ± 1 kg"', '"331 kg"\nsprung_mass = "300 kg"'), "measured"),
        (('lower_by = "12 mm"', 'lower_by = "12 mm"\nheight = "349 mm"'), "wanted"),
        (('lower_by = "12 mm"', 'lower_by = "-12 mm"'), "wanted.lower_by"),
        (('lower_by = "12 mm"', 'lower_by = "391 mm"'), "wanted.lower_by"),
    ],
)
def test_a_measured_height_that_does_not_do_is_refused(
    tmp_path: Path, registry: bw.Registry, change: tuple[str, str], key: str
) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        loaded(tmp_path, registry, MEASURED.replace(*change, 1))
    problems = getattr(caught.value, "problems", (caught.value,))
    assert [problem.key for problem in problems] == [key]


def test_the_same_height_needs_no_measurement(tmp_path: Path, registry: bw.Registry) -> None:
    text = MEASURED.replace('raise_by = "3 mm"', "same_height = true\ncuts = 0")
    _, right = loaded(tmp_path, registry, text).corners
    assert right.wanted == bw.Wanted(same_height=True, cuts=0)

    alone, _ = loaded(tmp_path, registry, LEAST.replace("keep_standard", "same_height")).corners
    assert alone.wanted == bw.Wanted(same_height=True)


def test_a_load_that_no_scale_reads_is_told_where_it_stands(
    tmp_path: Path, registry: bw.Registry
) -> None:
    light = MEASURED.replace('"331 kg ± 1 kg"', '"3 kg"')
    with pytest.raises(bw.BarwrightError) as caught:
        loaded(tmp_path, registry, light)
    problems = getattr(caught.value, "problems", (caught.value,))
    assert [(problem.code, problem.key) for problem in problems] == [
        ("Q302", "measured.scale_reading")
    ]


# -- Usual figures -------------------------------------------------------------------

HOLED = """\
assume = "usual"
vehicle = "tiny:chassis/one"
corners = ["front left", "front right"]
wanted.keep_standard = true
[present]
damper = "tiny:damper/one"
"""


@pytest.fixture
def gaps(tmp_path: Path) -> bw.Registry:
    """A pack whose vehicle has a tyre of unknown rate, and a damper of unknown closed length."""
    pack = changed_pack(tmp_path, "vehicles.toml", 'tyre_rate = "185 N/mm"', "")
    parts = pack / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    parts.write_text(text.replace('closed_length = "486 mm"', ""), encoding="utf-8")
    return bw.Registry.from_folders(pack)


def test_a_job_may_let_usual_figures_in(tmp_path: Path, gaps: bw.Registry) -> None:
    for corner in loaded(tmp_path, gaps, HOLED).corners:
        for setup in (corner.setup, corner.present):
            assert setup.axle.tyre_rate.m_as("N/mm") == 210.0
            assert setup.axle.about["tyre_rate"].source == "standards:usual/tyre-rate"
            assert setup.damper.closed_length.m_as("mm") == 452.0
        assert corner.setup is corner.present


def test_otherwise_what_is_unknown_stays_so(tmp_path: Path, gaps: bw.Registry) -> None:
    job = loaded(tmp_path, gaps, HOLED.partition("\n")[2])

    assert is_unknown(job.corners[0].setup.axle.tyre_rate)
    assert is_unknown(job.corners[0].present.damper.closed_length)


def test_nothing_else_can_be_assumed(tmp_path: Path, gaps: bw.Registry) -> None:
    with pytest.raises(bw.DocumentError) as caught:
        loaded(tmp_path, gaps, HOLED.replace('"usual"', '"something"'))

    assert [(p.code, p.key, p.line) for p in caught.value.problems] == [("S204", "assume", 1)]


# -- Several readings -----------------------------------------------------------------------

READ_THRICE = """
vehicle = "fells:chassis/short"
corners = ["front left"]

[present]
pin_distance = "159 mm"

[load]
sprung_mass = "300 kg"

[[measured.left]]
height = "391 mm ± 2 mm"

[[measured.left]]
arm_angle = "-4 deg ± 0.3 deg"
scale_reading = "331 kg ± 1 kg"
pin_distance = "160 mm ± 0.5 mm"

[[measured.left]]
height = "380 mm"
nut_turns = "-1 turn ± 0.1 turn"

[wanted]
height = "380 mm"
"""


def test_several_readings_are_of_the_corner_as_it_is_now(
    tmp_path: Path, registry: bw.Registry
) -> None:
    (corner,) = loaded(tmp_path, registry, READ_THRICE).corners
    first, second, third = corner.present.readings
    assert corner.setup.readings == corner.present.readings
    assert first.corner.pin_distance == third.setup.pin_distance == bw.Quantity("159 mm")
    assert first.corner.load == third.corner.load == corner.present.load
    assert (second.height, second.arm_angle) == (None, bw.Quantity("-4 deg"))
    assert second.corner.pin_distance == bw.Quantity("160 mm")
    assert second.corner.load.about["mass"].tolerance == bw.Quantity("1 kg")
    halves = {name: figure.tolerance for name, figure in second.about.items()}
    assert halves == {"arm_angle": bw.Quantity("0.3 deg"), "pin_distance": bw.Quantity("0.5 mm")}
    assert (third.corner.nut_turns, third.corner.pin_distance) == (bw.Quantity("-1 turn"), None)


@pytest.mark.parametrize(
    ("change", "code", "key", "line"),
    [
        (('height = "391 mm ± 2 mm"\n', ""), "S202", "measured.left[0]", 11),
        (('"-4 deg ± 0.3 deg"', '"-4 mm"'), "Q202", "measured.left[1].arm_angle", 15),
        (('"331 kg ± 1 kg"', '"3 kg"'), "Q302", "measured.left[1].scale_reading", 16),
        (('height = "380 mm"\nnut', 'high = "380 mm"\nnut'), "S201", "measured.left[2].high", 20),
        (
            ('nut_turns = "-1', 'pin_distance = "160 mm"\nnut_turns = "-1'),
            "S207",
            "measured.left[2].pin_distance",
            21,
        ),
        (('wanted]\nheight = "380', 'wanted]\nlower_by = "10'), "S207", "wanted.lower_by", 24),
    ],
)
def test_a_reading_that_does_not_do_is_told_where_it_stands(
    tmp_path: Path,
    registry: bw.Registry,
    *,
    change: tuple[str, str],
    code: str,
    key: str,
    line: int,
) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        loaded(tmp_path, registry, READ_THRICE.replace(*change, 1))
    found = getattr(caught.value, "problems", (caught.value,))[0]
    assert (found.code, found.key, found.line) == (code, key, line)


def test_readings_for_a_side_are_written_as_such(tmp_path: Path, registry: bw.Registry) -> None:
    text = READ_THRICE.replace("[[measured.left]]", "[[measured]]")
    with pytest.raises(bw.BarwrightError, match=r"\[\[measured.left\]\]"):
        loaded(tmp_path, registry, text)


def test_the_place_of_the_nut_now_keeps_its_tolerance(
    tmp_path: Path, registry: bw.Registry
) -> None:
    pin = 'arm_tooth = 1\npin_distance = "158 mm ± 0.5 mm"'
    left, _ = loaded(tmp_path, registry, MEASURED.replace("arm_tooth = 1", pin)).corners
    assert left.present.about["pin_distance"].tolerance == bw.Quantity("0.5 mm")
    assert left.setup.reading is not None
    assert left.setup.reading.setup.about["pin_distance"].tolerance == bw.Quantity("0.5 mm")
    # The nut is set anew by a measure that may be off: the height is surer than it may be.
    known = bw.reindex(left.setup, wanted=left.wanted).preferred
    bare = MEASURED.replace("arm_tooth = 1", pin.replace(" ± 0.5 mm", ""))
    sure, _ = loaded(tmp_path, registry, bare).corners
    assert (
        known.height_uncertainty
        > bw.reindex(sure.setup, wanted=left.wanted).preferred.height_uncertainty
    )


def test_what_a_corner_weighed_is_what_it_carries_unless_the_job_says_otherwise(
    tmp_path: Path, registry: bw.Registry
) -> None:
    unsaid = MEASURED.replace('[load]\nsprung_mass = "300 kg"\n', "")
    left, right = loaded(tmp_path, registry, unsaid).corners
    assert right.setup.load.mass == bw.Quantity("331 kg")
    assert right.setup.reading is not None
    assert right.setup.load == right.setup.reading.setup.load
    # The left one was not weighed: it carries what its vehicle does in standard trim.
    assert left.setup.load.mass == left.setup.axle.standard_mass


@pytest.mark.parametrize("count", [0, 13])
def test_so_many_readings_of_a_corner_are_refused(
    tmp_path: Path, registry: bw.Registry, count: int
) -> None:
    head, _, tail = READ_THRICE.partition("[[measured.left]]")
    wanted = tail[tail.index("[wanted]") :]
    many = '[[measured.left]]\nheight = "391 mm"\n' * count or "[measured]\nleft = []\n"
    with pytest.raises(bw.BarwrightError, match=f"{count} readings") as caught:
        loaded(tmp_path, registry, f"{head}{many}{wanted}")
    (found,) = getattr(caught.value, "problems", (caught.value,))
    assert (found.code, found.key) == ("S203", "measured.left")
