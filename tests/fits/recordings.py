"""Labelled recordings as the fits take them: staged, and matched with what is labelled."""

import re
from pathlib import Path

from pydantic import BaseModel, ConfigDict

from hikite.claims.rosters import colours_of
from hikite.claims.scenes import Scene
from hikite.claims.sifting import Sift
from hikite.claims.staging import stage
from hikite.evaluate.golds import Gold, read_gold
from hikite.evaluate.matches import heard_claims, match
from hikite.mentions import find_mentions
from hikite.records import Claim, Mention, Talk, Transcript, Word
from hikite.terms import Terms
from hikite.transcripts import read
from hikite.utterances import cut

# A name of what was told as done so lately is told of the same action again.
_SAME_ACTION_S, _DRAFTS_BACK = 12.0, 12
_DONE, _TRIED = frozenset({"completed"}), frozenset({"attempted", "failed"})


class Labelled(BaseModel):
    """A recording's scene with the true status and side of the drafts that a labelled mention matches."""

    model_config = ConfigDict(arbitrary_types_allowed=True)
    author: str
    gold: Gold
    scene: Scene
    sides: tuple[str, str]
    sift: Sift
    status: dict[int, str]
    pull: dict[int, float]


def labelled(gold_file: Path, variant: str, terms: Terms, bare: bool = False) -> Labelled | None:
    """One labelled recording, staged and matched; nothing where the variant is missing.

    ``bare`` takes case, marks, apostrophes and speakers away, as captions made by a machine have none.
    """
    talk_file = gold_file.with_name(gold_file.name.replace(".gold.json", f".{variant}"))
    if not talk_file.exists():
        return None
    gold = read_gold(gold_file)
    transcript = read(talk_file)
    talk = cut(stripped(transcript) if bare else transcript)
    return laid_out(gold_file.name[0], gold, talk, find_mentions(talk, terms), terms)


def stripped(transcript: Transcript) -> Transcript:
    """The same words as bare captions, each caption as long as before."""
    cues = []
    for cue in transcript.cues:
        words: list[Word] = []
        for word in cue.words:
            for piece in re.findall(r"\w+", re.sub("['’]", "", word.text.lower())):
                start = words[-1].stop + 1 if words else 0
                place = {"text": piece, "start": start, "stop": start + len(piece)}
                words.append(word.model_copy(update=place))
        text = " ".join(word.text for word in words)
        cues.append(cue.model_copy(update={"text": text, "words": tuple(words), "speaker": None}))
    return transcript.model_copy(update={"cues": tuple(cue for cue in cues if cue.words)})


def laid_out(author: str, gold: Gold, talk: Talk, mentions: tuple[Mention, ...], terms: Terms) -> Labelled:
    """A recording staged, its drafts matched with what is labelled."""
    scene, sheet = stage(talk, mentions, terms, gold.sheets[0], "en")
    sides = colours_of(sheet, scene.words, scene.speech)
    status, pull = answered(scene, gold, sides)
    return Labelled(
        author=author,
        gold=gold,
        scene=scene,
        sift=Sift(scene, mentions),
        sides=sides,
        status=status,
        pull=pull,
    )


def answered(scene: Scene, gold: Gold, sides: tuple[str, str]) -> tuple[dict[int, str], dict[int, float]]:
    """The true status and side of the drafts that answer a labelled mention."""
    pairs = match(heard_claims(scene.drafts, scene.talk), gold, scene.terms.same)
    status: dict[int, str] = {}
    pull: dict[int, float] = {}
    for truth_index, number in pairs.items():
        truth = gold.truths[truth_index]
        if truth.kind != scene.drafts[number].kind and scene.drafts[number].kind != "landing":
            continue
        if truth.status is not None:
            status[number] = truth.status
        if truth.side in sides:
            pull[number] = 1.0 if truth.side == sides[0] else -1.0
    _thrown(scene, status, pull)
    return status, pull


def _thrown(scene: Scene, status: dict[int, str], pull: dict[int, float]) -> None:
    """Who lands is the one thrown: landings right after a labelled throw take the other side."""
    for number, draft in enumerate(scene.drafts):
        for back in range(number - 1, max(number - 5, -1), -1):
            near = scene.statement_of[draft.first] - scene.statement_of[scene.drafts[back].first] <= 2
            throw = (
                scene.drafts[back].kind == "technique" and status.get(back) == "completed" and back in pull
            )
            if draft.kind == "landing" and number not in pull and near and throw:
                pull[number] = -pull[back]
                break


def as_read(one: Labelled) -> dict[int, str]:
    """The statuses in one reading: to most annotators a later name of one action is recalled, to some not.

    What was only tried is named again in one breath by other words alone: "heaves, and heaves" is two heaves.
    """
    status, drafts = dict(one.status), one.scene.drafts
    for number in sorted(status):
        here = drafts[number]
        if here.kind != "technique":
            continue
        for back in range(number - 1, max(number - _DRAFTS_BACK, -1), -1):
            if one.scene.seconds(here.first) - one.scene.seconds(drafts[back].first) > _SAME_ACTION_S:
                break
            if back in one.status and _names_same(one.scene, drafts[back], here):
                if one.scene.renames[number] == back and one.status[back] in _DONE | _TRIED:
                    if status[number] == "recalled":
                        status[number] = status[back]
                elif status[number] in _DONE and one.status[back] in ("completed", "recalled"):
                    status[number] = "recalled"
                break
    return status


def _names_same(scene: Scene, one: Claim, other: Claim) -> bool:
    return one.kind == other.kind and scene.alike(one.concept, other.concept)
