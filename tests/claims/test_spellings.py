from hikite.claims.actors import find_actors
from hikite.claims.rosters import Roster
from hikite.claims.spellings import each_time_anew, well_spelt
from hikite.records import Sheet
from hikite.sounds import load_ear
from hikite.terms.speech import load_speech
from talks import talk

# Invented names as somebody wrote them who knows them, and as a recogniser: common practice, no source.
WRITTEN = (
    "Here is Velmarkov in red. So Velmarkov turns in, but Lindegard and Velmarkov wait. Now Lindegard shoots.\
 And Velmarkov holds. But Lindegard stands."
)
HEARD = (
    "Here is Velmarkof in red. So Felmakov turns in, but Lindegart and Velmarkow wait. Now Lyndegar shoots.\
 And Vilmarkov holds. But Lintegard stands. Then fell markoff turns in."
)


def test_a_recogniser_writes_a_name_anew_each_time() -> None:
    ear = load_ear("en")
    assert each_time_anew(talk(HEARD), ear, ())
    assert not each_time_anew(talk(WRITTEN), ear, ())
    # Too few names to tell, and none at all.
    assert not each_time_anew(talk("Here is Velmarkof in red. So Felmakov turns in."), ear, ())
    assert not each_time_anew(talk("he turns in and lands on his side"), ear, ())
    # Without capitals what is no English word tells as much, but for names of the trade.
    small = talk("velmarkof in red felmakov turns volmakoff again velmarkov waits tolvarin and dolvaren")
    assert each_time_anew(small, ear, ())
    assert not each_time_anew(small, ear, range(len(small.tokens)))


def test_who_writes_the_names_as_the_sheet_has_them_knows_them() -> None:
    names = (("velmarkov", "red"), ("lindegard", "blue"))
    assert well_spelt(talk(WRITTEN), names)
    assert not well_spelt(talk(HEARD), names)


def test_what_sounds_like_a_name_learnt_is_met_where_names_are_written_anew() -> None:
    said = talk(HEARD)
    found, _ = find_actors(said, Sheet(), load_speech("en"), set())
    met = {said.words(one.first, one.stop): one.side for one in found if one.how == "name"}
    assert met["velmarkof"] == met["felmakov"] == met["vilmarkov"] == met["fell markoff"] == "red"


def test_where_only_one_side_has_a_name_nothing_sounds_like_it() -> None:
    said = talk(HEARD)
    one, both = (("velmarkof", "red"),), (("velmarkof", "red"), ("lindegart", "blue"))
    met = {
        names: {
            said.words(first, stop)
            for first, stop, _ in Roster({}, names).near(said, said.texts, set(), "en", True)
        }
        for names in (one, both)
    }
    assert not met[one]
    assert "fell markoff" in met[both]
