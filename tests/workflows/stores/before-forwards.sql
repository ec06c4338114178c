-- A store as the program made it before entries could replace others: one trainee, three cards, four days.
BEGIN TRANSACTION;
CREATE TABLE challenge (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        raised_at TEXT NOT NULL,
        reason TEXT NOT NULL,
        digest TEXT NOT NULL,
        PRIMARY KEY (trainee, entry, raised_at),
        CONSTRAINT challenge_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT challenge_digest CHECK (length(digest) BETWEEN 1 AND 128),
        CONSTRAINT challenge_reason CHECK (length(reason) BETWEEN 0 AND 2000),
        CONSTRAINT challenge_raised_at CHECK (length(raised_at) BETWEEN 27 AND 27)
    );
CREATE TABLE group_member (
        group_key TEXT NOT NULL REFERENCES trainee_group (name_key),
        trainee TEXT NOT NULL REFERENCES trainee (id),
        PRIMARY KEY (group_key, trainee)
    );
CREATE TABLE memory (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        topic TEXT NOT NULL,
        ease INTEGER NOT NULL,
        repetition INTEGER NOT NULL,
        interval_days INTEGER NOT NULL,
        last_day TEXT NOT NULL,
        due_day TEXT NOT NULL,
        owed INTEGER NOT NULL,
        answered_at TEXT NOT NULL,
        PRIMARY KEY (trainee, entry),
        CONSTRAINT memory_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT memory_topic CHECK (length(topic) BETWEEN 1 AND 100),
        CONSTRAINT memory_last_day CHECK (length(last_day) BETWEEN 10 AND 10),
        CONSTRAINT memory_due_day CHECK (length(due_day) BETWEEN 10 AND 10),
        CONSTRAINT memory_answered_at CHECK (length(answered_at) BETWEEN 27 AND 27),
        CONSTRAINT memory_ease CHECK (ease >= 130),
        CONSTRAINT memory_repetition CHECK (repetition >= 1),
        CONSTRAINT memory_interval_days CHECK (interval_days >= 1),
        CONSTRAINT memory_owed CHECK (owed BETWEEN 0 AND 2),
        CONSTRAINT memory_due_after_last CHECK (due_day >= last_day)
    );
INSERT INTO "memory" VALUES('answer-001','low-carbon/storage/where-the-book-treats-batteries','low-carbon',270,2,6,'2026-10-06','2026-10-12',0,'2026-10-06T18:00:20.000000Z');
INSERT INTO "memory" VALUES('answer-001','regulations/structure/battery-chapter','regulations',250,2,6,'2026-10-08','2026-10-14',0,'2026-10-08T18:00:20.000000Z');
INSERT INTO "memory" VALUES('answer-001','safety/proving-dead/volt-stick-on-armoured-cable','safety',250,2,6,'2026-10-08','2026-10-14',0,'2026-10-08T18:00:40.000000Z');
CREATE TABLE meta (
        "key" TEXT NOT NULL PRIMARY KEY,
        value TEXT NOT NULL
    );
INSERT INTO "meta" VALUES('program','quizzer');
INSERT INTO "meta" VALUES('version','3');
CREATE TABLE paper (
        id TEXT NOT NULL PRIMARY KEY,
        record TEXT NOT NULL,
        kept INTEGER NOT NULL,
        CONSTRAINT paper_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT paper_record CHECK (length(record) BETWEEN 1 AND 20000000),
        CONSTRAINT paper_kept CHECK (kept >= 1)
    );
CREATE TABLE review (
        id TEXT NOT NULL PRIMARY KEY,
        trainee TEXT NOT NULL REFERENCES trainee (id),
        entry TEXT NOT NULL,
        topic TEXT NOT NULL,
        seed BIGINT NOT NULL,
        digest TEXT NOT NULL,
        asked TEXT NOT NULL,
        reply TEXT NOT NULL,
        was_right INTEGER NOT NULL,
        was_rounded INTEGER NOT NULL,
        slip TEXT,
        confidence TEXT,
        quality INTEGER NOT NULL,
        was_drill INTEGER NOT NULL,
        answered_at TEXT NOT NULL,
        day TEXT NOT NULL,
        seconds BIGINT NOT NULL,
        CONSTRAINT review_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT review_entry CHECK (length(entry) BETWEEN 1 AND 200),
        CONSTRAINT review_topic CHECK (length(topic) BETWEEN 1 AND 100),
        CONSTRAINT review_digest CHECK (length(digest) BETWEEN 1 AND 128),
        CONSTRAINT review_asked CHECK (length(asked) BETWEEN 0 AND 100000),
        CONSTRAINT review_reply CHECK (length(reply) BETWEEN 0 AND 4000),
        CONSTRAINT review_slip CHECK (length(slip) BETWEEN 1 AND 100),
        CONSTRAINT review_answered_at CHECK (length(answered_at) BETWEEN 27 AND 27),
        CONSTRAINT review_day CHECK (length(day) BETWEEN 10 AND 10),
        CONSTRAINT review_seed CHECK (seed >= 0),
        CONSTRAINT review_was_right CHECK (was_right IN (0, 1)),
        CONSTRAINT review_was_rounded CHECK (was_rounded IN (0, 1)),
        CONSTRAINT review_was_drill CHECK (was_drill IN (0, 1)),
        CONSTRAINT review_confidence CHECK (confidence IN ('certain', 'fairly sure', 'guessing')),
        CONSTRAINT review_quality CHECK (quality BETWEEN 0 AND 5),
        CONSTRAINT review_seconds CHECK (seconds >= 0)
    );
INSERT INTO "review" VALUES('answer-002','answer-001','low-carbon/storage/where-the-book-treats-batteries','low-carbon',1,'7647fc9d27f2c1ec','Rhys looks in BS 7671:2018+A4:2026 for stationary secondary batteries. Where are they treated?
A  Section 722
B  Section 702
C  Chapter 64
D  Chapter 57
Answer: D','D',1,0,NULL,'certain',5,0,'2026-10-05T18:00:20.000000Z','2026-10-05',20);
INSERT INTO "review" VALUES('answer-003','answer-001','regulations/structure/battery-chapter','regulations',2,'0406c3ad22c432ce','Amendment 4 brought a Chapter on stationary secondary batteries. Which number does it have?
A  Chapter 46
B  Chapter 82
C  Chapter 57
D  Chapter 55
Answer: C','A',0,0,'wrong-5','fairly sure',1,0,'2026-10-05T18:00:40.000000Z','2026-10-05',20);
INSERT INTO "review" VALUES('answer-004','answer-001','safety/proving-dead/volt-stick-on-armoured-cable','safety',3,'c6ae39b25e57d71e','Katya holds a non-contact voltage detector against a steel-wire armoured cable. It stays silent. What does this show?
A  Nothing, since earthed armour screens the field
B  The cable is dead, as the field is absent
C  The armour is broken, so it reads nothing
D  The cable is live but carries no current
Answer: A','A',1,0,NULL,'fairly sure',4,0,'2026-10-05T18:01:00.000000Z','2026-10-05',20);
INSERT INTO "review" VALUES('answer-006','answer-001','low-carbon/storage/where-the-book-treats-batteries','low-carbon',5,'7647fc9d27f2c1ec','Rhys looks in BS 7671:2018+A4:2026 for stationary secondary batteries. Where are they treated?
A  Chapter 57
B  Section 702
C  Chapter 41
D  Chapter 64
Answer: A','A',1,0,NULL,'certain',5,0,'2026-10-06T18:00:20.000000Z','2026-10-06',20);
INSERT INTO "review" VALUES('answer-007','answer-001','regulations/structure/battery-chapter','regulations',6,'0406c3ad22c432ce','Amendment 4 brought a Chapter on stationary secondary batteries. Which number does it have?
A  Chapter 71
B  Chapter 57
C  Chapter 46
D  Chapter 82
Answer: B','B',1,0,NULL,'fairly sure',4,0,'2026-10-06T18:00:40.000000Z','2026-10-06',20);
INSERT INTO "review" VALUES('answer-008','answer-001','safety/proving-dead/volt-stick-on-armoured-cable','safety',7,'c6ae39b25e57d71e','Katya holds a non-contact voltage detector against a steel-wire armoured cable. It stays silent. What does this show?
A  The cable is dead, as the field is absent
B  Nothing, since earthed armour screens the field
C  The cable is live but carries no current
D  The cores are balanced, so the cable is safe
Answer: B','A',0,0,'wrong-1','certain',0,0,'2026-10-06T18:01:00.000000Z','2026-10-06',20);
INSERT INTO "review" VALUES('answer-010','answer-001','regulations/structure/battery-chapter','regulations',9,'0406c3ad22c432ce','Amendment 4 brought a Chapter on stationary secondary batteries. Which number does it have?
A  Chapter 57
B  Chapter 46
C  Chapter 55
D  Chapter 82
Answer: A','B',0,0,'wrong-5','fairly sure',1,0,'2026-10-07T18:00:20.000000Z','2026-10-07',20);
INSERT INTO "review" VALUES('answer-011','answer-001','safety/proving-dead/volt-stick-on-armoured-cable','safety',10,'c6ae39b25e57d71e','Katya holds a non-contact voltage detector against a steel-wire armoured cable. It stays silent. What does this show?
A  The cable is dead, as the field is absent
B  Nothing, since earthed armour screens the field
C  The cores are balanced, so the cable is safe
D  The cable is live but carries no current
Answer: B','B',1,0,NULL,'fairly sure',4,0,'2026-10-07T18:00:40.000000Z','2026-10-07',20);
INSERT INTO "review" VALUES('answer-013','answer-001','regulations/structure/battery-chapter','regulations',12,'0406c3ad22c432ce','Amendment 4 brought a Chapter on stationary secondary batteries. Which number does it have?
A  Chapter 57
B  Chapter 82
C  Chapter 56
D  Chapter 55
Answer: A','A',1,0,NULL,'fairly sure',4,0,'2026-10-08T18:00:20.000000Z','2026-10-08',20);
INSERT INTO "review" VALUES('answer-014','answer-001','safety/proving-dead/volt-stick-on-armoured-cable','safety',13,'c6ae39b25e57d71e','A non-contact voltage detector gives no sound beside a steel-wire armoured cable at Long Meadow. What can be concluded?
A  The armour is broken, so it reads nothing
B  The cores are balanced, so the cable is safe
C  The cable is dead, as the field is absent
D  Nothing, since earthed armour screens the field
Answer: D','D',1,0,NULL,'fairly sure',4,0,'2026-10-08T18:00:40.000000Z','2026-10-08',20);
CREATE TABLE script (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        paper TEXT NOT NULL REFERENCES paper (id),
        form TEXT NOT NULL,
        answers TEXT NOT NULL,
        origin TEXT NOT NULL,
        marked_at TEXT NOT NULL,
        PRIMARY KEY (trainee, paper, form),
        CONSTRAINT script_form CHECK (length(form) BETWEEN 1 AND 20),
        CONSTRAINT script_answers CHECK (length(answers) BETWEEN 1 AND 400),
        CONSTRAINT script_origin CHECK (length(origin) BETWEEN 1 AND 20),
        CONSTRAINT script_marked_at CHECK (length(marked_at) BETWEEN 27 AND 27)
    );
CREATE TABLE sitting (
        trainee TEXT NOT NULL REFERENCES trainee (id),
        paper TEXT NOT NULL REFERENCES paper (id),
        form TEXT NOT NULL,
        answers TEXT NOT NULL,
        flags TEXT NOT NULL,
        place INTEGER NOT NULL,
        seconds BIGINT NOT NULL,
        allowed BIGINT NOT NULL,
        turn INTEGER NOT NULL,
        started_at TEXT NOT NULL,
        submitted_at TEXT,
        PRIMARY KEY (trainee, paper, form),
        CONSTRAINT sitting_form CHECK (length(form) BETWEEN 1 AND 20),
        CONSTRAINT sitting_answers CHECK (length(answers) BETWEEN 1 AND 400),
        CONSTRAINT sitting_flags CHECK (length(flags) BETWEEN 1 AND 400),
        CONSTRAINT sitting_started_at CHECK (length(started_at) BETWEEN 27 AND 27),
        CONSTRAINT sitting_submitted_at CHECK (length(submitted_at) BETWEEN 27 AND 27),
        CONSTRAINT sitting_place CHECK (place >= 0),
        CONSTRAINT sitting_seconds CHECK (seconds >= 0),
        CONSTRAINT sitting_allowed CHECK (allowed >= 1),
        CONSTRAINT sitting_turn CHECK (turn >= 0)
    );
CREATE TABLE trainee (
        id TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        name_key TEXT NOT NULL UNIQUE,
        exam_day TEXT,
        added_at TEXT NOT NULL, blueprint TEXT
        CONSTRAINT trainee_blueprint CHECK (length(blueprint) BETWEEN 1 AND 400), minutes_a_day INTEGER
        CONSTRAINT trainee_minutes_a_day CHECK (minutes_a_day BETWEEN 1 AND 1440),
        CONSTRAINT trainee_id CHECK (length(id) BETWEEN 1 AND 100),
        CONSTRAINT trainee_name CHECK (length(name) BETWEEN 1 AND 100),
        CONSTRAINT trainee_name_key CHECK (length(name_key) BETWEEN 1 AND 400),
        CONSTRAINT trainee_exam_day CHECK (length(exam_day) BETWEEN 10 AND 10),
        CONSTRAINT trainee_added_at CHECK (length(added_at) BETWEEN 27 AND 27)
    );
INSERT INTO "trainee" VALUES('answer-001','local trainee','local trainee',NULL,'2026-10-05T18:00:00.000000Z',NULL,NULL);
CREATE TABLE trainee_group (
        name_key TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        added_at TEXT NOT NULL,
        CONSTRAINT trainee_group_name_key CHECK (length(name_key) BETWEEN 1 AND 400),
        CONSTRAINT trainee_group_name CHECK (length(name) BETWEEN 1 AND 100),
        CONSTRAINT trainee_group_added_at CHECK (length(added_at) BETWEEN 27 AND 27)
    );
CREATE INDEX memory_due ON memory (trainee, due_day, entry);
CREATE INDEX review_history ON review (trainee, answered_at, id);
COMMIT;
