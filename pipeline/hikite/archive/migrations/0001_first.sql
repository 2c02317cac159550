-- Everything that is read from one recording hangs on its number. Rows below it are numbered
-- recording * 2^20 + n (bouts: * 2^16 + n), so that all of one recording lie side by side and keep their numbers.

CREATE TABLE recordings (
    id INTEGER PRIMARY KEY,
    sha256 TEXT NOT NULL UNIQUE,      -- of the file's bytes
    title TEXT,
    folded_title TEXT NOT NULL,       -- lower case, no accents: what a search compares
    date TEXT,                        -- ISO 8601
    day INTEGER NOT NULL,             -- days since 0001-01-01, 0 where no date is known
    address TEXT,                     -- where the recording can be watched, from the bout sheet
    format TEXT NOT NULL,
    encoding TEXT NOT NULL,
    language TEXT,
    duration_ms INTEGER NOT NULL,
    cues INTEGER NOT NULL,
    sheet_sha256 TEXT NOT NULL,       -- '' where there is no bout sheet
    sheet TEXT NOT NULL,              -- the bout sheet as it was told, JSON
    lexicon TEXT NOT NULL,            -- version of its terms
    tool TEXT NOT NULL,               -- version of the program that read it
    words TEXT NOT NULL,              -- hash of all of the lexicon but its rule sets
    rules TEXT NOT NULL,              -- hash of the rule sets its bouts can have been fought under
    ruleset TEXT,                     -- the rule set the sheet names; without one any may be chosen
    kept_at TEXT NOT NULL
);

CREATE INDEX recordings_title ON recordings (folded_title);

-- Where a recording lies. A file that is no longer found keeps its row with the day it was missed.
CREATE TABLE files (
    path TEXT PRIMARY KEY,
    recording INTEGER NOT NULL REFERENCES recordings (id) ON DELETE CASCADE,
    media TEXT,
    since TEXT NOT NULL,
    gone_since TEXT
);
CREATE INDEX files_recording ON files (recording);

-- Earlier contents of a recording whose file was edited: decisions may be anchored in them.
CREATE TABLE editions (
    sha256 TEXT NOT NULL,
    recording INTEGER NOT NULL REFERENCES recordings (id) ON DELETE CASCADE,
    until TEXT NOT NULL,
    PRIMARY KEY (sha256, recording)
) WITHOUT ROWID;

-- What each stage handed on, as zlib-compressed JSON: transcript, talk, mentions, testimony, ledger.
CREATE TABLE parts (
    recording INTEGER NOT NULL REFERENCES recordings (id) ON DELETE CASCADE,
    stage TEXT NOT NULL,
    body BLOB NOT NULL,
    UNIQUE (recording, stage)
);

CREATE TABLE refused (
    path TEXT PRIMARY KEY,
    reason TEXT NOT NULL,
    at TEXT NOT NULL
);

CREATE TABLE bouts (
    id INTEGER PRIMARY KEY,
    recording INTEGER NOT NULL REFERENCES recordings (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    ruleset TEXT NOT NULL,
    ruleset_confidence REAL NOT NULL,
    first_side TEXT NOT NULL,
    second_side TEXT NOT NULL,
    start_ms INTEGER NOT NULL,
    end_ms INTEGER NOT NULL,
    duration_s INTEGER,
    final TEXT NOT NULL,              -- the score as shown, first side's first
    final_confidence REAL NOT NULL,
    winner TEXT,
    won_by TEXT,
    result_confidence REAL NOT NULL
);
CREATE INDEX bouts_ruleset ON bouts (ruleset);

CREATE TABLE people (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    folded TEXT NOT NULL UNIQUE
);

CREATE TABLE competitors (
    bout INTEGER NOT NULL REFERENCES bouts (id) ON DELETE CASCADE,
    side TEXT NOT NULL,
    person INTEGER REFERENCES people (id),
    name TEXT,
    nation TEXT,
    folded_nation TEXT NOT NULL,
    PRIMARY KEY (bout, side)
) WITHOUT ROWID;

-- The talk, one row a statement.
CREATE TABLE talk (
    id INTEGER PRIMARY KEY,
    start_ms INTEGER NOT NULL,
    end_ms INTEGER NOT NULL,
    speaker TEXT,
    text TEXT NOT NULL
);
CREATE VIRTUAL TABLE talk_words USING fts5 (
    text, content = 'talk', content_rowid = 'id', tokenize = 'unicode61 remove_diacritics 2'
);
CREATE TRIGGER talk_put AFTER INSERT ON talk BEGIN
    INSERT INTO talk_words (rowid, text) VALUES (new.id, new.text);
END;
CREATE TRIGGER talk_taken AFTER DELETE ON talk BEGIN
    INSERT INTO talk_words (talk_words, rowid, text) VALUES ('delete', old.id, old.text);
END;

CREATE TABLE events (
    id INTEGER PRIMARY KEY,
    recording INTEGER NOT NULL,
    bout INTEGER NOT NULL,
    number INTEGER NOT NULL,          -- the entry is b<bout number>.<number>
    day INTEGER NOT NULL,             -- of the recording
    start_ms INTEGER NOT NULL,
    end_ms INTEGER NOT NULL,
    kind TEXT NOT NULL,
    concept TEXT NOT NULL,
    status TEXT NOT NULL,
    side TEXT,
    person INTEGER,                   -- who acted, and the other one
    opponent INTEGER,
    nation TEXT NOT NULL,             -- whom the acting side fights for, folded; '' where that is not known
    generic INTEGER NOT NULL,
    attributes TEXT NOT NULL,         -- '|left|high|'
    counts INTEGER NOT NULL,
    points INTEGER,
    score_class TEXT,
    seconds INTEGER,
    fell INTEGER,
    unspoken INTEGER NOT NULL,
    rule_row TEXT,
    clock_low_s REAL,
    clock_high_s REAL,
    clock_best_s REAL,
    golden INTEGER,
    confidence REAL NOT NULL,
    side_confidence REAL NOT NULL,
    status_confidence REAL NOT NULL,
    statement INTEGER,                -- talk.id of its own words
    words TEXT NOT NULL,
    -- Worked out once, so that a search need not:
    head INTEGER NOT NULL,            -- 0 where it only tells more of the moment another event opens
    moment INTEGER NOT NULL,          -- id of the event that opens the moment
    gained INTEGER,                   -- points the action brought, by the score of the same moment
    gained_class TEXT,
    scored INTEGER NOT NULL,          -- 1 where it brought a score, or is one
    landing TEXT,
    own_before INTEGER,               -- points before it, of the acting side and of the other
    other_before INTEGER,
    lead INTEGER,                     -- own_before - other_before
    standing INTEGER,                 -- 1 leading, 0 level, -1 behind, before it; in classes too
    score_before TEXT,
    score_after TEXT,
    grips TEXT NOT NULL,              -- '|grip:lapel|': held by the acting side at the time
    attempt INTEGER,                  -- which try of this technique by this side in the bout
    previous INTEGER                  -- id of the event that opened the moment before
);
CREATE INDEX events_day ON events (day DESC);
CREATE INDEX events_statement ON events (statement);
CREATE INDEX events_attempt ON events (attempt, concept) WHERE attempt > 1;
-- A search starts from the index that promises the fewest rows. Behind what they lead by, these hold what else
-- is asked often, so that the row itself need not be read.
CREATE INDEX events_bout ON events (bout, start_ms, concept, status, side, head, moment);
CREATE INDEX events_what ON events (
    concept, status, side, standing, clock_best_s, scored, head, golden, confidence, attempt, day, bout, grips
);
CREATE INDEX events_how ON events (
    scored, status, standing, side, clock_best_s, kind, head, golden, confidence, attempt, day, bout, grips
);
CREATE INDEX events_nation ON events (
    nation, concept, status, side, standing, clock_best_s, scored, head, golden, confidence, day, bout
) WHERE nation <> '';
CREATE INDEX events_person ON events (person, concept, status, day);
CREATE INDEX events_opponent ON events (opponent, concept, status, day);

-- The events at which a grip was held, with what else is asked beside it.
CREATE TABLE held (
    grip TEXT NOT NULL,
    concept TEXT NOT NULL,
    status TEXT NOT NULL,
    event INTEGER NOT NULL,
    PRIMARY KEY (grip, concept, status, event)
) WITHOUT ROWID;
CREATE INDEX held_event ON held (event);

-- How many events there are of a kind, counted now and then: a search chooses its way by it, nothing else does.
CREATE TABLE tallies (
    about TEXT NOT NULL,              -- all, concept, status, nation, grip, scored, again
    value TEXT NOT NULL,
    events INTEGER NOT NULL,
    PRIMARY KEY (about, value)
) WITHOUT ROWID;

-- The lexicon the archive was last written with, so that a search needs no other.
CREATE TABLE concepts (
    id TEXT PRIMARY KEY,
    kind TEXT NOT NULL,
    label TEXT NOT NULL,
    family TEXT,
    tradition TEXT NOT NULL,
    generic INTEGER NOT NULL,
    caution INTEGER NOT NULL
) WITHOUT ROWID;
CREATE TABLE names (
    normal TEXT NOT NULL,
    rank INTEGER NOT NULL,
    concept TEXT NOT NULL,
    PRIMARY KEY (normal, rank)
) WITHOUT ROWID;
CREATE TABLE kin (                    -- who asks for the one means the other too: the same, or of its family
    asked TEXT NOT NULL,
    meant TEXT NOT NULL,
    PRIMARY KEY (asked, meant)
) WITHOUT ROWID;
CREATE TABLE stamps (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) WITHOUT ROWID;

-- A person's word. Rows are added, never changed: undoing is a row of its own. They hang on the recording's
-- content, a time and words, not on the numbers of events, which a new reading may give to others.
CREATE TABLE decisions (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    reviewer TEXT NOT NULL,
    made_at TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    kind TEXT NOT NULL,
    at_ms INTEGER NOT NULL,
    words TEXT NOT NULL,
    entry_kind TEXT,
    entry_concept TEXT,
    entry_side TEXT,
    change TEXT NOT NULL,             -- JSON
    undoes INTEGER REFERENCES decisions (id)
);
CREATE INDEX decisions_sha256 ON decisions (sha256);
CREATE TRIGGER decisions_stay BEFORE UPDATE ON decisions BEGIN
    SELECT raise(ABORT, 'a decision is never changed');
END;
CREATE TRIGGER decisions_remain BEFORE DELETE ON decisions BEGIN
    SELECT raise(ABORT, 'a decision is never deleted');
END;
