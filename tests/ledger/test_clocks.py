"""The match clock from loose talk: rough readings, whole lengths, golden score. From common practice."""

from telling import Told, call, clock, fault, tell

from hikite.ledger import keep, load_rulesets
from hikite.records import Clock

RULESETS = load_rulesets()


def clocks(ruleset: str, *acts: list[Told]) -> list[Clock | None]:
    """The clock at each clock that is named."""
    (bout,) = keep(tell(call("start"), *acts, ruleset=ruleset, apart_ms=20_000), RULESETS).bouts
    return [event.clock for event in bout.events if event.kind == "clock"]


def about(seconds: int) -> list[Told]:
    return [told | {"attributes": ("about",)} for told in clock(seconds)]


# "Fifty-five seconds. That is less than a minute": the exact reading stands.
def test_a_rough_reading_moves_no_exact_one() -> None:
    exact, _ = clocks("sambo.sport.2020", [*clock(55), *about(60)])
    assert exact is not None
    assert exact.low_s <= 55 <= exact.high_s
    assert exact.best_s == 55


# "Forty seconds remaining of the first three minutes."
def test_a_periods_length_is_no_reading() -> None:
    read, _ = clocks("uww.fs", clock(160), [*clock(40), *clock(180)])[1:]
    assert read is not None
    assert read.low_s <= 40 <= read.high_s


# "The winner, after four minutes fifty-five": the whole bout's length, fifty-five seconds of golden score.
def test_the_whole_length_in_golden_score() -> None:
    acts = (call("end"), clock(0, of="golden-score", elapsed=True), clock(295, elapsed=True))
    last = clocks("judo.2018", clock(100), *acts)[-1]
    assert last is not None
    assert last.golden
    assert last.best_s == 55


# A rise that does not come near a period's length is a misreading, no new period.
def test_a_small_rise_is_no_new_period() -> None:
    read = clocks("uww.fs", clock(30), clock(65), clock(45), clock(25))
    assert [one.best_s for one in read[1:] if one] == [65, 45, 25]


# UWW (WP-02): thirty seconds to score run on a clock of their own, which is not the match clock.
def test_the_activity_clock_is_not_the_match_clock() -> None:
    passive = fault("red", "passivity")
    first, activity, last = clocks("uww.fs", clock(150), [*passive, *clock(30)], clock(110))
    assert first is not None
    assert activity is not None
    assert last is not None
    assert activity.best_s > 60
    assert last.low_s <= 110 <= last.high_s


# "The whistle's gone, three minutes": so much cannot have passed yet, it is what is left.
def test_no_more_can_be_gone_than_has_passed() -> None:
    (full,) = clocks("uww.fs", clock(180, elapsed=True))
    assert full is not None
    assert full.high_s == 180


# "Fifty-one seconds." And a few words of other things later: "Twenty seconds." Both hold.
def test_only_words_close_by_correct_a_reading() -> None:
    reading = [
        told | {"first": 10 + 40 * n, "stop": 12 + 40 * n} for n, told in enumerate([*clock(51), *clock(20)])
    ]
    early, late = clocks("uww.fs", clock(70), reading)[1:]
    assert early is not None
    assert late is not None
    assert early.low_s <= 51 <= early.high_s
    assert late.low_s <= 20 <= late.high_s


# Golden score told by its clock began after the end of the time before, however fast the recording runs.
def test_golden_score_begins_after_the_end() -> None:
    told = clocks(
        "judo.2018", clock(50), call("end"), call("restart"), clock(90, "golden-score", elapsed=True)
    )
    assert told[0] is not None
    assert not told[0].golden


# "They're stood up … a grip on the leg … up they get": it went on with nobody saying so.
def test_a_clock_runs_where_somebody_acts() -> None:
    grip: list[Told] = [{"kind": "grip", "concept": "grip:leg", "status": "taken", "side": "red"}]
    asked = clock(200)
    asked[0]["status"] = "recalled"
    acts = ([*call("stop"), *clock(240)], grip, grip, asked, call("restart"), clock(160))
    then = clocks("sambo.sport.2020", *acts)[1]
    assert then is not None
    assert then.best_s < 215


# A period called after the end of the one before begins anew, however much was left when last read.
def test_a_period_named_after_the_end_begins_anew() -> None:
    told = clocks("uww.fs", clock(120), call("end", "period"), call("start", "period"), clock(170))
    assert told[-1] is not None
    assert told[-1].low_s <= 170 <= told[-1].high_s


# "It's all over … no, we wrestle on. Fifty seconds left in the first": a minute in, no period has ended.
def test_an_end_called_too_early_ends_no_period() -> None:
    told = clocks("uww.gr", clock(170), call("end"), call("restart"), clock(110))
    assert told[-1] is not None
    assert told[-1].best_s == 110
