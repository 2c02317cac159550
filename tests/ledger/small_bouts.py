# ruff: noqa: E501 (a line is a caption)
"""Small invented bouts told in many ways, with their final scores: the whole path against plain talk."""

from typing import NamedTuple


class Small(NamedTuple):
    """A bout: its rules, who fights, what is said line by line, and both totals (judo: scores by class)."""

    rules: str
    names: tuple[str, str]
    text: str
    final: tuple[dict[str, int], dict[str, int]]


def points(one: int, two: int) -> tuple[dict[str, int], dict[str, int]]:
    return {"points": one}, {"points": two}


BOUTS = (
    Small(
        "uww.fs",
        ("Davor Kestel", "Ilan Brask"),
        """Okay, whistle goes, Kestel in red, Brask in blue.
Kestel shoots straight away, snatches the single, finishes it, and there's your first two of the day.
Two-nothing Kestel, thirty seconds in.
Brask circles, ties up, level change, oh lovely double leg, dumps him, that'll be a pair to the blue corner.
We're knotted at two.
Brask locks the lace, one turn, two turns, that's four more, he's running away with it.
Six to two.
Kestel gets out the back door, stands, walks him out of bounds, so a single for the push.
Half time, six-three Brask.
Second period. Kestel needs to open up. He's put on the clock? No, that's Brask on the clock for thirty.
Brask can't score, clock runs down, so Kestel gets a point for it.
Six four, one minute on the clock.
Kestel high crotch, lifts, brings him down, two.
All square at six, but Kestel has the last score.
Time! It finishes six apiece and Kestel takes it on criteria.""",
        points(6, 6),
    ),
    Small(
        "uww.gr",
        ("Tomas Verrin", "Pavel Ostyn"),
        """Ninety-seven kilos, Verrin red, Ostyn blue, wrestle.
Pummelling for underhooks in the middle.
Referee dings Ostyn for passivity, that's a point for Verrin and he chooses par terre.
He locks the gut wrench, rolls it through, two, and again, two more.
Five nil, just like that.
Back on the feet. Ostyn snaps him down, spins behind, takedown for two.
Five-two.
Break.
Second half. Now it's Verrin's turn to be called passive, one for Ostyn.
Five three. Ostyn goes for the reverse lift, gets it up, throws, and that's four on the scoreboard!
Ostyn leads seven five.
Verrin shoves him to the edge, heel over, one point step-out.
Seven-six, twenty seconds left.
Verrin tries an arm throw, nothing.
That's the end, Ostyn by seven points to six.""",
        points(6, 7),
    ),
    Small(
        "sambo.sport.2020",
        ("Radu Petrik", "Oskar Lund"),
        """Here we go, Petrik wearing red, Lund wearing blue.
Petrik takes the belt, swings him with a hip throw, Lund lands on his side and Petrik is still upright, that's a two.
Two zip.
Lund answers, goes for the leg, ankle pick, sits him on his backside, one point.
Two-one.
Hold-down from Petrik, he's got the side hold, counting, ten, fifteen, twenty, full twenty, two points for the hold.
Four to one in favour of the Petrik camp.
Warning for Lund, passivity, first one so no points.
Another warning, Lund again, this one costs him a point.
Five one.
Lund over-the-head throw, onto the back, but both went down, it's four! Four for Lund.
All level at five.
Final minute, Petrik inner reap, down on the buttocks, gets himself one.
Six-five Petrik and that's the gong.""",
        points(6, 5),
    ),
    Small(
        "sambo.sport.2020",
        ("Radu Petrik", "Oskar Lund"),
        """Start. Petrik and Lund, red against blue.
Lund is immediately in, front trip, Petrik goes down on his stomach. Two points say the judges.
That's nought-two.
Lund once more, back trip this time, shoulder, both fall, just the one.
Nought-three.
Petrik replies with a huge suplex, he's flat on his back, thrower stays up... is that total? No! They say he rolled, four.
Four-three now.
Twenty seconds. Lund's knee bar, he's got it, Petrik taps! Painful hold, it's all over.
Lund wins by submission, behind on points.""",
        points(4, 3),
    ),
    Small(
        "judo.2018",
        ("Hana Sorel", "Mia Kovat"),
        """Hajime. Sorel in white, Kovat in blue.
Shido to both for not taking grips.
Sorel with the drop seoi, Kovat's over on her side, waza-ari.
Sorel a waza-ari ahead.
Kovat attacks with uchi mata, no, blocked.
False attack from Sorel, second shido for her.
One more and she's gone.
Kovat, ko-soto, throws Sorel onto her hip, that's waza-ari as well!
One each.
Into golden score we go.
Kovat catches the arm, juji gatame, she taps! Ippon for Kovat.""",
        ({"waza_ari": 1, "shido": 2}, {"waza_ari": 1, "ippon": 1, "shido": 1}),
    ),
    Small(
        "judo.2018",
        ("Hana Sorel", "Mia Kovat"),
        """And we're off, Sorel wearing the white, Kovat the blue judogi.
Kovat is penalised for stepping out.
Kovat picks up another one, false attack, so that's two on the board against her.
Sorel scores with a foot sweep! The referee signals waza-ari. Hang on, the jury want a look. And it's cancelled, no score.
Kovat's third penalty, blocking the grips, hansoku-make, Sorel goes through.""",
        ({"waza_ari": 0, "shido": 0}, {"waza_ari": 0, "shido": 3}),
    ),
    Small(
        "judo.2025",
        ("Hana Sorel", "Mia Kovat"),
        """Hajime, Sorel white, Kovat blue.
Kovat drops under and rolls Sorel over with seoi nage, side landing. Ippon? No, the hand stays level. Waza-ari. No, lower still. Yuko!
A yuko to nothing, blue ahead.
Sorel's first card, for backing off.
So white carrying one shido, and blue leads by a yuko.
Sorel throws with uchi mata! Waza-ari, white.
Sorel's waza-ari over a yuko, then, and one penalty against white.
Time! Sorel wins it by waza-ari.""",
        ({"waza_ari": 1, "shido": 1}, {"yuko": 1}),
    ),
    Small(
        "judo.2025",
        ("Hana Sorel", "Mia Kovat"),
        """Hajime.
White's straight in, o-goshi, rolls Kovat onto her bum, they give a yuko.
Sorel on top now, osaekomi, she's counting, six seven eight, toketa. That's another yuko for eight seconds.
Two yukos to Sorel.
Kovat throws tai-otoshi, big landing, waza-ari!
One waza-ari beats any number of yukos.
Sore made, Kovat is the winner.""",
        ({"yuko": 2}, {"waza_ari": 1}),
    ),
    Small(
        "uww.fs",
        ("Davor Kestel", "Ilan Brask"),
        """Kestel versus Brask, freestyle.
Takedown Brask! Two.
Brask leads by two.
Exposure, another two for Brask. Four oh.
Kestel reverses him, one.
Kestel turns him with a crotch lift, two. It's four three.
Caution Brask, fleeing the mat, point to Kestel. Four-four.
Kestel takedown, two, and he laces him, two, two, two.
Twelve four Kestel. Eight the difference.
Step out, one, thirteen four. One more would end it.
Push out again! Fourteen-four, technical superiority, Kestel.""",
        points(14, 4),
    ),
    Small(
        "uww.fs",
        ("Davor Kestel", "Ilan Brask"),
        """Brask in on a low single, Kestel sprawls, spins round, and it's the red wrestler who gets the two.
Score is two to nil.
Brask's corner throws the challenge brick. They review it. Challenge lost! That's an extra point to Kestel.
Three-nil.
Four-pointer! Brask launches him, feet to back, four fingers from the referee.
Brask takes the lead four-three.
Kestel can't get through, and that's full time, four three to the man in blue.""",
        points(3, 4),
    ),
    Small(
        "sambo.sport.legacy",
        ("Radu Petrik", "Oskar Lund"),
        """Referee calls them in.
Petrik gets a throw, knee, no score for that.
Petrik again, shoulder throw, onto the side, standing, he's awarded four.
Lund throws with a back heel, chest, thrower standing, two points.
Four two.
Lund holds, ten seconds, that's two for the ten count. He keeps it to twenty, that's four then, instead of two.
Six-four, Lund is up.
Petrik warned. And again. Second official warning hands Lund one.
Seven to four, Lund takes it.""",
        points(4, 7),
    ),
    Small(
        "uww.fs",
        ("Goran Mesic", "Peter Vanloo"),
        """Welcome back folks, seventy-four kilos, Mesic out of the red corner, Vanloo in the blue.
These two met in the spring and Mesic edged it five four that day.
Right, heads together, hand fighting. Mesic's got a two-on-one.
Snap, go-behind, oh he's quick! Two on the board.
Vanloo's up again. Vanloo to a single, he's got it in the air, he's running the pipe, down goes Mesic, and the referee raises two with the blue cuff.
So that evens it.
He needed that, did Vanloo. If he'd lost that scramble it's four nothing and goodnight.
They go out of bounds, and the ref says Vanloo stepped first. One.
Three two Mesic at the interval.
Thirty seconds for a drink.
Back at it. Passivity warning on Mesic, just verbal.
Now he's on the shot clock, thirty seconds to score, Mesic.
Twenty... ten... nothing coming, and that's a point against him.
Three all. But who scored last? Vanloo.
Mesic knows it, dives at the legs, Vanloo sprawls, front headlock, round he goes, two more Vanloo!
Five three, fifteen seconds.
And there it is. Vanloo gets his revenge, five points to three.""",
        points(3, 5),
    ),
    Small(
        "uww.gr",
        ("Aron Halle", "Yusuf Demirkan"),
        """Greco now. Halle red singlet, Demirkan blue.
Halle's the shorter man. He's squeezing the body lock, lifts... and launches him! Oh my word, chest to chest, four. Is it four or five? They're giving four.
Four nothing and we've barely sat down.
Demirkan gets up grinning.
Passive blue, says the mat judge, that's five, and Halle wants him down.
Par terre. Halle goes for the lift. Demirkan's defending, defending, he slips out to the side and comes out on top. That's a reversal, one.
Five-one.
Halle steps off the mat, one more. Five two.
End of the first.
Here's the replay of that body lock, four points all day long.
Red passive this time. Five three. Demirkan chooses ground.
Gut wrench, over, two! Again, two! He's in front!
Seven-five Demirkan.
One more turn. No, they've stopped it, out of bounds.
Halle chases, Demirkan holds on, whistle.
Demirkan seven, Halle five.""",
        points(5, 7),
    ),
    Small(
        "sambo.sport.2020",
        ("Milos Grabar", "Janek Tull"),
        """Sambo, ladies and gents. Grabar the red jacket, Tull the blue.
Tull yanks him forward, foot on the hip, over the head, Grabar lands on his bottom. One point to Tull, thrower went down with him, hmm, they look at it, yes, one.
Zero one.
Grabar grips up, high over the back. Spins in, hip throw, boof, flat on his back, but he's gone down too. So that's a four.
Grabar leads by three.
On the deck he goes for the arm, Tull clasps, no.
Stand up.
Tull gets told off for stalling, a first caution, costs nothing.
Leg grab by Tull, he dumps Grabar on his belly. Two? Two it is.
Four-three.
Grabar is holding on, back pedalling. Warning red, his first. Warning red again! A point for that.
Four four.
Last ten seconds, Tull sweeps the foot, Grabar on his side, and Tull's standing over him, that's two for the blue man.
He wins it at the death, six four.""",
        points(4, 6),
    ),
    Small(
        "judo.2018",
        ("Lena Aust", "Rosa Vidal"),
        """Fifty-two kilos. In white, Lena Aust. In blue, Rosa Vidal.
Hajime!
Grip fighting to begin with. Vidal lefty.
Aust comes underneath, seoi, Vidal rolls onto her shoulder... waza-ari? The referee thinks so. Yes, waza-ari.
So Aust's on the board first.
Matte. Vidal adjusts her jacket.
The referee brings them in: shido for Aust, too passive.
Vidal is pressing now, o-uchi, Aust stumbles, sits down, no score.
Another shido against the woman in white, that's two. She's on thin ice.
Thirty seconds left. Vidal throws everything at it. Uchi-mata! Over she goes! Is it enough? Waza-ari for Vidal!
One apiece. Golden score.
Golden score: Aust attacks with a drop knee seoi, countered by Vidal, tani-otoshi, and that's the winning waza-ari!
Vidal wins.""",
        ({"waza_ari": 1, "shido": 2}, {"waza_ari": 2, "shido": 0}),
    ),
    Small(
        "judo.2018",
        ("Emil Trond", "Luis Faro"),
        """Trond in the white, Faro in the blue, under seventy-three.
Faro dominates the sleeve. Trond breaks.
Non-combativity, both athletes pick up a shido.
Trond harai, spins him but nothing.
Faro's turn: sode, huge, Trond flat on his back! IPPON! No question.
Well, well. He only needed ninety seconds.
Let's see it again: double sleeve, pops the hips, lands him clean. Ippon every day of the week.""",
        ({"shido": 1}, {"ippon": 1, "shido": 1}),
    ),
    Small(
        "judo.2025",
        ("Emil Trond", "Luis Faro"),
        """Trond white, Faro blue.
Osoto from Trond, Faro turns, lands on the side of his backside. Yuko. Trond up by a yuko.
Faro ko-uchi, Trond's knee only. Nothing.
Penalty Faro, outside grip, shido.
Faro gets the o-soto himself now! Waza-ari! Blue takes over.
Trond's penalised, passive.
Osaekomi, Trond has kesa-gatame, five... ten... twelve... fifteen... eighteen... twenty! Ippon, Trond!
That's how you come back.""",
        ({"yuko": 1, "shido": 1, "ippon": 1}, {"waza_ari": 1, "shido": 1}),
    ),
    Small(
        "uww.fs",
        ("Goran Mesic", "Peter Vanloo"),
        """Mesic and Vanloo for bronze. Mesic is red.
Push-out, Mesic, one nothing.
Another push-out, Mesic again, two nothing.
Vanloo hits a fireman's carry, straight to his back. Four points!
Vanloo in front, four two.
Held for a moment, no fall.
Mesic reversal, he's on top, one for the reversal, and now he's tilting him, exposure, two.
Five four now to the man in red.
Caution against Vanloo, grabbing the singlet, one and a choice. Six-four.
Vanloo takes a shot, gets in, takedown, two. Six-six.
And Vanloo's ahead on the bigger move.
Mesic can't find it, time runs out. Criteria: Vanloo.""",
        points(6, 6),
    ),
    Small(
        "sambo.sport.2020",
        ("Milos Grabar", "Janek Tull"),
        """Here come Grabar and Tull.
Grabar grips over the top.
Suplex! Grabar sends him flying, he lands on his back, Grabar stays on his feet... the referee's arm goes up. Total victory!
Clean throw, it's all over after eleven seconds.
Nothing on the scoreboard and he doesn't care.""",
        points(0, 0),
    ),
    Small(
        "uww.gr",
        ("Aron Halle", "Yusuf Demirkan"),
        """Halle against Demirkan.
Two for Demirkan, takedown, nice and early.
Gut wrench, two, that's four.
Another one, six.
And again, eight! Eight nil, it's a tech, technical superiority for Demirkan in the blue.""",
        points(0, 8),
    ),
    Small(
        "sambo.sport.legacy",
        ("Milos Grabar", "Janek Tull"),
        """Old rules today. Grabar red, Tull blue.
Tull tosses him to his side, stays standing, four points.
Nil-four.
Grabar holds him down, ten seconds, and on, and on, twenty. Four for the hold.
Level at four.
Tull has a warning, and a second, so one point for Grabar.
Five four for the fellow in red. Time.""",
        points(5, 4),
    ),
)
AFTER_THE_BELL = Small(
    "judo.2025",
    ("Hana Sorel", "Mia Kovat"),
    """Hajime. Sorel in white takes the lapel.
Seoi-nage from Sorel, on the side, waza-ari!
Waza-ari to nothing, three minutes left.
Kovat tries an o-soto, Sorel steps off it.
Ten seconds.
And that's the bell.
Sorel by the waza-ari.
So what do we take home. She grips the sleeve first, she drops early.
And on the ground she taps out.""",
    ({"waza_ari": 1}, {}),
)
ANOTHER_GONG = Small(
    "sambo.sport.legacy",
    ("Milos Grabar", "Janek Tull"),
    """Grabar in red, Tull in blue. Old rules.
Grabar with the hip throw, Tull on his side, he stays up, four points.
Four nil, one minute left.
There's the gong.
Other mat's gong, forty seconds left here.
Tull takes the foot under the armpit and sits back, it bites.
Grabar tries to stand, he cannot.
Finish! Total victory blue.
Points are points, a foot is a foot.""",
    points(4, 0),
)
