"""What the program says of itself: by itself, so that --help opens nothing for it."""

AID = "A study aid: never an instruction to work live, never a certificate of competence, never a design."
NOTICE = f"{AID} Your tutor, the current edition and local rules decide."
