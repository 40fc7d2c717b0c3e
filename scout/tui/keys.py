"""Every key once: the footer, the help page and the docs read it here."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Key:
    """One key: what is pressed, the word in the footer, what it does in a sentence, and its row behind More."""

    press: str
    word: str
    does: str
    row: str = ""
    """Empty: the word says it."""


KEYS: dict[str, Key] = {
    # anywhere
    "help": Key("?", "Keys", "Show what every key does here.", "What the keys do"),
    "back": Key("escape", "Back", "Go back one screen; nothing given is lost."),
    "undo": Key("u", "Undo", "Take back the last thing given, also after a restart.", "Take back the last thing"),
    "quit": Key("q", "Quit", "Leave Bedwalk; the walk goes on where it stopped."),
    "theme": Key("t", "Light/dark", "Change between the sun theme and the night theme.", "Sun or night colours"),
    # today
    "walk": Key("w", "Walk", "Start the walk, or go on with it."),
    "jobs": Key("j", "Jobs", "Show the open jobs by due date."),
    "weather": Key("e", "Weather", "Type today's weather or look at the last two weeks."),
    "garden": Key("b", "Beds", "Show and change beds and plantings.", "Beds and plantings"),
    "guide": Key(
        "r", "Read", "Read about a crop, what is normal for it, and its troubles.", "Read about a crop and its troubles"
    ),
    "alerts": Key(
        "a",
        "Put away",
        "Put one of the lines marked * away, with a reason; it comes back when it changes.",
        "Put a line marked * away",
    ),
    "gaps": Key(
        "g", "Gaps", "Show the gaps in picking that are coming, and when flowers set again.", "Gaps in picking ahead"
    ),
    "find_bed": Key("f", "Find", "Type some letters of a bed, a crop or a variety.", "Find by letters"),
    # plan
    "go": Key("enter", "Go", "Begin with the first stop."),
    "minutes": Key(
        "m", "Minutes", "Say how many minutes there are; the rest waits with a reason.", "How many minutes there are"
    ),
    "hours": Key(
        "h",
        "By hour",
        "Show the dawn list, the after-dark list, the heat by the hour and first aid.",
        "Dawn, dark, heat by the hour",
    ),
    # stop
    "glance": Key(
        "g",
        "Glanced ok",
        "Glanced over the plants shown, nothing caught my eye. Says nothing of what is hidden.",
        "Glanced, nothing caught my eye",
    ),
    "all_looks": Key(
        "a", "All clear", "Every planned look made on the plants shown, nothing seen.", "Every look made, nothing seen"
    ),
    "bed_clear": Key(
        "b",
        "Bed clear",
        "Every planned look made on every planting of this bed, nothing seen.",
        "Whole bed: every look, nothing seen",
    ),
    "clear": Key("c", "Clear", "This look made, nothing seen.", "This look: nothing seen"),
    "seen": Key("s", "Seen", "Something seen at this look: choose what.", "This look: something seen"),
    "skip": Key("k", "Skip", "Not looked at; counts for nothing.", "This look: not made"),
    "find": Key("f", "Finding", "Something else caught my eye: choose or type it.", "Something else caught my eye"),
    "words": Key("w", "Words", "Say it in your own words."),
    "causes": Key("r", "Causes", "Rank the likely causes for this planting.", "Likely causes here"),
    "next_stop": Key(
        "n", "Next bed", "Go to the next stop; one without an answer counts as not looked at.", "Next bed"
    ),
    "later": Key("l", "Later", "Leave this stop for the evening, with a reason.", "Leave it for later"),
    "to_bed": Key("t", "To bed", "Go to another bed of this walk; this one stays open.", "Go to another bed"),
    "end_walk": Key(
        "z", "End walk", "End the walk here; stops not reached count as not looked at.", "End the walk here"
    ),
    "count_plants": Key("p", "Plants", "Change how many plants were looked at.", "How many plants are looked at"),
    "pick_sound": Key("+", "Sound", "One more sound piece picked.", "One sound piece picked"),
    "pick_odd": Key("-", "Odd", "One more odd piece picked.", "One odd piece picked"),
    "watering": Key("h", "Water", "Log watered, missed or timer failed.", "Log the water here"),
    "enemies": Key("y", "Friends", "Log natural enemies seen.", "Log natural enemies"),
    "photo": Key("o", "Photo", "Attach a picture by its path or from the inbox folder.", "Attach a picture"),
    "erase": Key(
        "x", "Erase", "Erase this picture for good, such as one with a person in it.", "Erase this picture for good"
    ),
    "note": Key("i", "Note", "Write a line to read at the next visit.", "A line for the next visit"),
    "which": Key("x", "Which", "Say which plants, such as 3rd and 5th from the path.", "Which plants it is on"),
    "pest_count": Key("e", "Pest count", "Count a pest against the mark of an extension guide.", "Count a pest"),
    "own_job": Key("a", "Add", "Add a job of your own.", "Add a job of your own"),
    "calendar": Key(
        "c", "Calendar", "Write the jobs as a file that calendar programs take in.", "Write a calendar file"
    ),
    "by_bed": Key("b", "By bed/day", "List the jobs bed by bed, or by the day they are due.", "By bed, or by day"),
    "hold": Key(
        "d",
        "Do not eat",
        "Enter that a labelled product was used here, with its label's days and hours.",
        "A labelled product was used",
    ),
    "holds": Key(
        "d",
        "Do not eat",
        "Show what may not be eaten or entered yet, and enter a labelled product.",
        "What not to eat yet",
    ),
    "marked": Key("v", "Marked", "Measure the marked plants.", "Measure the marked plants"),
    "knife": Key(
        "k",
        "Strip?",
        "Show whether to strip today, which leaves and how many, and answer what it asks.",
        "Strip today?",
    ),
    "figures": Key(
        "f",
        "Figures",
        "Show the epidemic figures: incidence, AUDPC, infection rate, doubling time.",
        "Epidemic figures",
    ),
    "more": Key("m", "More", "Show the other things that can be done here."),
    # causes
    "yes": Key("y", "Yes", "The sign is there."),
    "no": Key("n", "No", "Looked for and not there."),
    "other_question": Key("o", "Other", "Ask something else instead.", "Ask something else"),
    "why": Key("w", "Why", "Show the clues for and against.", "Clues for and against"),
    "fruit_size": Key(
        "s", "Size", "Say how big the odd fruit is: it tells when it flowered.", "How big the odd fruit is"
    ),
    "confirm": Key(
        "c",
        "Confirm",
        "Say what proved or ruled out this cause; it shifts the odds in this garden.",
        "Confirm it, or rule it out",
    ),
    "history": Key(
        "h", "Confirmed", "Show what this garden has confirmed, and take answers back.", "What was confirmed here"
    ),
    "to_stop": Key("escape", "Done", "Back to the stop; the problem can be ranked again at any time."),
    # the end of a walk, a warning
    "done": Key("enter", "Done", "Read; go back."),
    # long work
    "stop": Key("x", "Stop", "Stop this work; nothing of it is kept."),
    # number pad and text
    "ok": Key("enter", "OK", "Take this answer."),
}
