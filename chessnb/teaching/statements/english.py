"""English: the words, and the ways in which annotators say things."""

from __future__ import annotations

from chessnb.teaching.statements.english_patterns import FRAGMENTS, TABLE
from chessnb.teaching.statements.language import Language

ENGLISH = Language(
    name="english",
    pieces={
        "king": "K",
        "queen": "Q",
        "rook": "R",
        "bishop": "B",
        "knight": "N",
        "pawn": "P",
        "minor piece": "m",
        "piece": "m",
        "exchange": "x",
        "material": "*",
    },
    plurals=frozenset({"kings", "queens", "rooks", "bishops", "knights", "pawns", "minor pieces"}),
    definite="the|this|that",
    indefinite="an|a|one",
    each="every|each|any|another|no other|what|which|no",
    owners={
        "white's": True,
        "black's": False,
        "its own": None,
        "their own": None,
        "his own": None,
        "its": None,
        "his": None,
        "her": None,
        "their": None,
    },
    adjectives=(
        "undefended|unprotected|loose|advanced|enemy|opposing|hostile|opponent's|own|poor|brave|"
        "attacked|strong|weak|proud|active|passive|whole|clear|full|extra|healthy|entire|clean|"
        "sound|important|dangerous|remaining|last|lone|helpless|centralised|central|precious|"
        "valuable|mighty|little|proud|unhappy|exposed|far-advanced"
    ),
    colours={"white": True, "black": False},
    prepositions="on|at|from",
    of="of",
    sides={
        "White": True,
        "Black": False,
        "he": None,
        "she": None,
        "they": None,
        "He": None,
        "She": None,
        "They": None,
    },
    numbers={
        "one": 1,
        "two": 2,
        "three": 3,
        "four": 4,
        "five": 5,
        "six": 6,
        "seven": 7,
        "eight": 8,
        "nine": 9,
        "ten": 10,
    },
    times={"once": 1, "twice": 2, "three times": 3, "four times": 4, "thrice": 3},
    files=r"(?:(?:the|an|a) )?(?:open |half-open )?(?P<file>[a-h])-file\b",
    fillers=(
        r"\b(?:now|already|simply|also|again|clearly|therefore|thus|of course|indeed|really|just|"
        r"absolutely|completely|totally|fully|firmly|at last|finally|in fact|suddenly|too|"
        r"once more|in turn|instantly|actually|however|moreover|obviously|"
        r"naturally|meanwhile|at this point|in this position|here|as well|safely|easily|"
        r"unfortunately|sadly|luckily|by force|at least|neatly|elegantly|"
        r"note that|notice that|observe that|remember that|remember:|note:|as a result|hence|"
        r"for free|for nothing|outright|cleanly|on the spot|right away|as it happens|"
        r"after all|all the same|nevertheless|nonetheless|alas|both|doubly|cruelly|"
        r"and so on|by the way|strictly speaking|exactly|precisely|certainly|surely|undoubtedly|evidently|"
        r"anyway|currently|presently|in any case|of all things)\b"
    ),
    rewritten={
        r"\bexchange of\b|\bexchange(?=s? (?:on|at))": "trade of",
        r"\bfor now\b|\bright now\b|\bat present\b|\bat the moment\b": "for the moment",
        r"\b((?:check)?mate[sd]?|mating) (?:on |at |with )?(?:the |his |her |White's |Black's )?"
        r"(?:very )?next (?:move|turn)\b": r"\1 next move",
        r"\b((?:check)?mates?|mating) (?:at once|immediately|on the move|on the spot|right away|"
        r"straight away|in a single move|instantly)\b": r"\1 in one",
        r"\b(may|can|will|could|has|have) never (castled?|be able to castle)(?: again)?\b": r"\1 not \2 anymore",
        r"\bcastle again\b": "castle anymore",
        r"\bit is (the [\w' -]+?) (?:that|which) (is|are)\b": r"\1 \2",
        r"^should (White|Black|he|she|they) (\w+)\b": r"if \1 \2",
        r"\bhas (?:an|one) (?:extra|additional) (\w+)": r"is a \1 ahead",
        r"\bhas two extra (\w+)": r"is two \1 ahead",
        r"\b(ahead|up|behind|down) by (an?|one|two|three|the) (\w+)": r"\2 \3 \1",
        r"\b(?:a|just one|only one) (?:single|lone) (defender|attacker|protector|guard)\b": r"one \1",
        r"\bwell (?=protected|defended|guarded|covered)": "",
        r"\bisn't\b": "is not",
        r"\baren't\b": "are not",
        r"\bwasn't\b": "was not",
        r"\bdoesn't\b": "does not",
        r"\bdon't\b": "do not",
        r"\bdidn't\b": "did not",
        r"\bcan't\b|\bcan not\b": "cannot",
        r"\bcouldn't\b": "could not",
        r"\bwon't\b": "will not",
        r"\bhasn't\b": "has not",
        r"\bmustn't\b": "must not",
        r"\bhaven't\b": "have not",
        r"\bwouldn't\b": "would not",
        r"\bthere's\b": "there is",
        r"\bit's\b": "it is",
        r"\bthat's\b": "that is",
        r"\bhe's\b": "he is",
        r"\bno longer\b": "not",
        r"\bnever\b": "not",
        r"\bany ?more\b|\bany longer\b|\bever again\b": "anymore",
        r"\bhas got\b": "has",
        r"\bdouble check(?:mate)\b": "double-check mate",
        r"\bmate-in-": "mate in ",
        r"\bmateable\b": "mated",
    },
    hedges=(
        r"\b(?:seems?|seemed|appears?|looks|might|maybe|perhaps|probably|possibly|i think|"
        r"i believe|i guess|i feel|in my (?:opinion|view)|presumably|likely|apparently|"
        r"hopes?|hoping|wants?|would like|tries|trying|intends?|plans?|planning|almost|nearly|"
        r"practically|virtually|should|rather|supposedly|allegedly|arguably|in some sense|"
        r"so to speak|more or less|as if|as though|roughly|sort of|kind of|thinks?|"
        r"thought|believes?|believed|says|said|claims?|claimed|expected|suspects?|feels?|felt|"
        r"dreams?|fears?|feared|imagined|overlooked|missed|wonders?|whether|not sure|unclear|"
        r"doubtful|not necessarily|in most lines|often|usually|sometimes|normally|in general|"
        r"aims? (?:to|for)|aiming (?:to|for)|preparing|prepares|idea|intending|ideally|may well|may have|could well)\b"
    ),
    commands=(
        r"^(?:please |now |but |and |first |then )?(?:look|find|try|count|think|calculate|work out|"
        r"show|ask|imagine|suppose|let|let's|consider|prove|decide|check whether|see if|see whether|"
        r"can you|could you|do you|always|do not|don't|never|avoid|beware|search|play|guess|"
        r"make sure|keep|watch|attack|defend|castle|take|put|move|bring|develop|solve|explain|"
        r"give|remember to|say|name|tell)\b"
    ),
    unreal=(
        r"\b(?:if only|otherwise|or else|unless|were it not|but for|without|had|instead|were to|"
        r"in case|provided|assuming|until|one day|eventually|sooner or later|in the long run|"
        r"in the endgame|later)\b"
    ),
    denials=r"\b(?:not|no|nor|neither|nobody|none|nothing|hardly|scarcely|barely|cannot|without)\b",
    breaks=r"[;:()–—]|, |\b(?:and|but|because|since|so|while|although|though|as|yet|where)\b",
    given=r"\b(?:if|after|on|upon|with|following|when|once|in reply to|against|in answer to|should)\b",
    conditions=r"\b(?:if|when|once|as soon as|should|after|while|suppose)\b",
    before=r"\b(?:before (?:this|that|the) move|before this|a move (?:ago|earlier)|until this move)\b",
    suffers=r"\b(?:lost|helpless|doomed|finished|defenceless|resigned|resigns|no defence|hopeless)\b",
    past=r"\b(?:was|were|used to|had been)\b",
    perfect=r"\b(?:has|have) (?:already )?(?:won|lost|gained|picked up)\b|\b(?:won|gained|lost)\b",
    its=r"\b(?:it|this|that|which|this move|the move|the text move|the check|this check|the capture|"
    r"the sacrifice|this capture|this sacrifice)\b",
    takes=r"takes?|captures?|recaptures?|accepts?|takes? back|grabs?|snatches|wins|removes",
    taking="taking|capturing|accepting|grabbing|snatching|removing",
    qualifiers="to|against|by|with|on|at|from|in front of|behind|of|for",
    joined={
        r"(⟦[PSM]\d+⟧|it|this|which),? ((?:attacks|hits|defends|protects|guards|covers|pins)) (⟦P\d+⟧),? "
        r"and (⟦P\d+⟧)(?! (?:is|are|has|can|attacks|defends|cannot|must)\b)": r"\1 \2 \3 and \1 \2 \4",
        r"(⟦P\d+⟧),? and (⟦P\d+⟧) are ([^.,;]*)": r"\1 is \3 and \2 is \3",
    },
    fragments=FRAGMENTS,
    motifs={
        r"forks?|double attack": "fork",
        r"skewers?": "skewer",
        r"(?:decoy|attraction)": "decoy",
        r"deflection": "deflection",
        r"clearance(?: sacrifice)?": "clearance",
        r"discovered check": "discovered check",
        r"discovered attack|discovery": "discovered attack",
        r"double check": "double check",
        r"smothered mate": "smothered mate",
        r"back[- ]rank mate": "back-rank mate",
        r"corridor mate": "corridor mate",
        r"epaulette mate": "epaulette mate",
        r"windmill": "windmill",
        r"in-between move|intermediate move|zwischenzug|intermezzo": "in-between move",
        r"desperado": "desperado",
        r"interference": "interference",
        r"x-ray(?: attack)?": "x-ray",
        r"removal of the (?:defender|guard)|removing the (?:defender|guard)": "removing the defender",
        r"sacrifice|sham sacrifice": "sacrifice",
        r"underpromotion": "underpromotion",
        r"overload(?:ing)?": "overloaded piece",
    },
    meanings={
        "level": "even",
        "equal": "even",
        "balanced": "even",
        "king's side": "kingside",
        "king side": "kingside",
        "king-side": "kingside",
        "short": "kingside",
        "queen's side": "queenside",
        "queen side": "queenside",
        "queen-side": "queenside",
        "long": "queenside",
        "less": "behind",
        "more": "ahead",
        "to the good": "ahead",
        "the fifty-move rule": "fifty moves",
        "insufficient material": "dead position",
        "threefold repetition": "repetition",
    },
    table=TABLE,
)
