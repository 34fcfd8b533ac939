"""The patterns of English: subject, verb, object, with the chess in slots; see ``language``."""

from __future__ import annotations

from collections.abc import Mapping

from chessnb.teaching.statements.statement import Kind

FRAGMENTS: Mapping[str, str] = {
    "be": r"(?:is|are|was|were|stands|remains|becomes|became|has become|has been|will be|being|sits|"
    r"lies|gets|got)",
    "not": r"(?P<not>not |does not |do not |did not |will not |cannot |is not |no |would not )?",
    "can": r"(?:can |could |will |would |must |has to |is able to |manages to |managed to |has |have |to )?",
    "mate": r"(?:check)?mate",
    "a": r"(?:(?:a|an|the|some|any) )?",
    "in": r"(?: (?:on|at) {Q})?(?: (?:in|within) (?:at most |only )?{N}(?: (?:more )?moves?)?)?",
    "with": r"(?:,? (?:with|by|by means of|through|thanks to|after)(?: playing| the move)? {M})?",
    "legal": r"(?:(?P<legal>legal|possible|available) )?",
    "reply": r"(?:move|reply|answer|response|defence|defense|way out|possibility|solution|option|"
    r"resource|chance|saving move|parry|recapture|escape)",
    "replies": r"(?:moves?|reply|replies|answers?|responses?|possibilit(?:y|ies)|options?)",
    "men": r"(?:(?:white|black|enemy|hostile|different) )?(?:pieces|men|attackers|enemies)",
    "aim": r"(?:attack|bear on|bear down on|aim at|hit|are aimed at|press on|are attacking|strike at|"
    r"are trained on|converge on|look at)",
    "must": r"(?:must|has to|had to|is forced to|is compelled to|is obliged to|can only|has no choice but to|"
    r"may only|cannot but)",
    "wing": r"(?: (?:on )?(?:the )?(?P<wing>kingside|queenside|king's side|queen's side|king side|"
    r"queen side|king-side|queen-side|short|long)| on (?:either|any) (?:side|wing))?",
    "lasting": r"(?:,? (?P<lasting>anymore|for good|at all|for ever|forever|for the rest of the game)|"
    r",? (?P<passing>for the moment|for now|for the time being|at once|yet|immediately))?",
    "win": r"(?:wins?|won|gains?|gained|picks? up|nets?|collects?|pockets?|bags?|grabs?|"
    r"captures?|snatches|winning|gaining|netting|picking up|collecting|bagging)",
    "lose": r"(?:loses?|lost|drops?|dropped|gives? away|gave away|blunders? away|blunders?|"
    r"blundered|hangs?|forfeits?|sheds?|must give up|losing|dropping|has to give up|"
    r"throws? away)",
    "defended": r"(?:defended|protected|guarded|covered|supported)",
    "undefended": r"(?:undefended|unprotected|unguarded|loose)",
    "end": r"(?! for| back|'s|,? (?:and|or|plus) (?:⟦N\d+⟧ )?⟦[PAX])",
    "attackers": r"(?:attackers?|attacks|pieces attacking it|attacking pieces)",
    "defenders": r"(?:defenders?|defences|defenses|protectors?|guards?)",
    "attacked": r"(?:attacked|under attack|under fire|assailed|hit)",
    "take": r"(?:take|capture|recapture|take back|accept)",
    "taken": r"(?:taken|captured|recaptured|accepted|removed)",
    "list": r"(?:⟦N\d+⟧ )?⟦[APX]\d+⟧",
    "kinds": r"(?:⟦N\d+⟧ )?⟦[AXP]\d+⟧",
    "anyone": r"(?:everything|every piece|all the pieces|all pieces|all of (?:the|⟦S\d+⟧'s) pieces|"
    r"(?:all )?⟦S\d+⟧'s pieces|"
    r"each piece|⟦X\d+⟧)",
}

TABLE: tuple[tuple[Kind, str, Mapping[str, object]], ...] = (
    # -- mate -----------------------------------------------------------------
    ("mate", r"{mate} (?:follows|comes|is coming|will follow|happens|arrives)? ?"
     r"(?:on )?(?:the )?(?:very )?next(?: move)?\b", {"number": 1, "next": True}),
    ("mate", r"{any} {can}{not}(?:mates?|checkmates?|is mating) (?:on )?(?:the )?(?:very )?next(?: move)?\b",
     {"number": 1, "next": True}),
    ("mate", r"{S} {be} {not}(?:check)?mated (?:on )?(?:the )?(?:very )?next(?: move)?\b",
     {"number": 1, "next": True, "passive": True}),
    ("mate", r"{S} (?:cannot|can not|is not able to|is unable to|fails to) "
     r"(?:avoid|prevent|stop|escape|avert|parry|meet|hold off|ward off) (?:the )?{mate}{in}",
     {"passive": True}),
    ("mate", r"{S} has no (?:good |adequate |sufficient |satisfactory |real |useful )?{reply} "
     r"(?:to|against) (?:the )?(?:threat of )?{mate}{in}", {"passive": True}),
    ("mate", r"there is no (?:good |adequate )?{reply} (?:to|against) (?:the )?(?:threat of )?{mate}{in}",
     {"passive": True, "turn": True}),
    ("mate", r"{mate}{in} (?:is|was|becomes) (?:unavoidable|inevitable|forced|certain|unstoppable|"
     r"not to be (?:stopped|avoided|prevented|averted))", {}),
    ("mate", r"{mate} next move (?:cannot|can not) be (?:stopped|prevented|avoided|averted|parried|met)",
     {"number": 1, "next": True}),
    ("mate", r"{mate} next move (?:is|was) (?:unavoidable|inevitable|forced|certain|unstoppable)",
     {"number": 1, "next": True}),
    ("mate", r"{P} {can}(?:mates?|checkmates?|gives? {mate}|delivers? {mate}) (?:on|at) {Q}",
     {"number": 1, "piece": True}),
    ("mate", r"{mate}{in} (?:cannot|can not) be (?:stopped|prevented|avoided|averted|parried)", {}),
    ("mate", r"(?:nothing|no move) (?:can )?(?:stops?|prevents?|averts?) (?:the )?{mate}{in}", {}),
    ("mate", r"{S} (?:{be}|will be|would be|gets) {not}(?:check)?mated{in}{with}", {"passive": True}),
    ("mate", r"{S} (?:faces|runs into|walks into|allows|must accept) (?:a |an )?(?:forced )?{mate}{in}",
     {"passive": True}),
    ("mate", r"it (?:takes|took) {S} (?:only )?{N} (?:more )?moves? to (?:give |deliver |force )?{mate}", {}),
    ("mate", r"{S} needs (?:only )?{N} (?:more )?moves? to (?:give |deliver |force )?{mate}", {}),
    ("mate", r"(?:the )?(?:shortest|quickest|fastest) (?:way to )?{mate} (?:takes|needs|is in|is|comes in|"
     r"requires|lasts) {N}(?: moves?)?", {"turn": True}),
    ("mate", r"{M} (?:is|was) (?:answered|met|punished|refuted|followed) (?:by|with) (?:a |an )?(?:\w+ )?{mate}{in}",
     {"allows": True}),
    ("mate", r"{M} (?:loses|fails) (?:at once )?(?:to|because of) (?:a |an )?(?:\w+ )?{mate}{in}", {"allows": True}),
    ("mate", r"{M} (?:walks into|runs into|allows|is met by|permits) (?:a |an )?(?:forced )?{mate}{in}",
     {"allows": True}),
    ("mate", r"{it},? (?:walks into|runs into|allows|permits) (?:a |an )?(?:forced )?{mate}{in}",
     {"allows": True}),
    ("mate", r"{S} to (?:play|move),? (?:and )?(?:to )?(?:mates?|checkmates?|force mate|win){in}", {"to": True}),
    ("mate", r"there is (?P<not>no )?{a}(?:\w+ )?{mate}{in}(?: for {S})?{with}",
     {"turn": True}),
    ("mate", r"{S} (?:has|have|had) (?P<not>no )?{a}(?:\w+ )?{mate}{in}{with}", {}),
    ("mate", r"{any},? (?:which |and )?{can}{not}(?:mates?|checkmates?|(?:forces?|leads to|delivers|gives|"
     r"brings about|ends in|results in|achieves|announces|means|brings|produces) "
     r"(?:a |an |the )?(?:forced )?{mate}){in}{with}", {}),
    ("mate", r"(?:is|was) {not}(?:a )?(?:forced )?{mate} (?:in|within) {N}(?: moves?)?{with}", {}),
    ("mate", r"(?:mating|(?:forcing|leading to|giving|delivering|with|and)(?: a)?(?: forced)? {mate})"
     r" (?:in|within) {N}(?: moves?)?", {}),
    ("mate", r"(?:comes|came|follows|followed|here is|we have|we see|what follows is|there follows|is followed by|"
     r"ends in|ends with|finishes with|crowned by) (?:a |an |the )?(?:\w+ )?{mate} (?:in|within) {N}(?: moves?)?", {}),
    ("mate", r"(?:^|(?<=[:;,–—] ))(?:a |an )?(?:forced |pretty |beautiful |quick )?{mate} in {N}(?: moves?)?(?: for {S})?(?= follows|[.,;!]|$)", {}),
    ("no defence", r"{S} has (?:no|not a|no good|no adequate) (?:defence|defense|answer)(?: left)?(?=[.,;]|$)",
     {"passive": True}),
    ("no defence", r"there is no (?:good |adequate )?(?:defence|defense)(?: left)?(?=[.,;]|$)",
     {"passive": True, "turn": True}),
    ("no defence", r"{S} is (?:defenceless|helpless|without defence)(?=[.,;]|$)", {"passive": True}),
    ("checkmate", r"{any} (?:is|was|gives) {not}(?:a )?{mate}(?! in| next)\b", {}),
    ("checkmate", r"^{mate}[.!]*$", {}),
    ("checkmate", r"{S} has (?:check)?mated(?! in)", {}),
    ("checkmate", r"{M} (?:finishes|ends|concludes|closes|decides|settles) (?:the game|it|matters|everything)", {"sign": True}),
    ("checkmate", r"(?:then|comes|follows|loses to|fails to|fails because of|is refuted by|is punished by|is answered by|is met by|are met by|meets|runs into|because of|on account of|"
     r"finishes with|ends with)(?:,? (?:and |then )?⟦M\d+⟧)*?,? (?:and |then )?{M}(?=[.,;]|$)", {"sign": True}),
    ("checkmate", r"{P} {be} {not}(?:check)?mated", {}),
    # -- only moves ------------------------------------------------------------
    ("only legal move", r"{S} has (?:only |but )?(?:a choice of |the choice of |the choice between )?{N} (?:legal|possible) {replies}"
     r"(?:[:,] {M})?", {}),
    ("only legal move", r"{S} has (?:only |but )?(?:a single|a) legal (?:move|reply|answer|response)"
     r"(?:[:,] {M})?", {"number": 1}),
    ("only legal move", r"{S} has no (?:other legal|second legal|other) (?:move|reply|answer)", {"number": 1}),
    ("only legal move", r"there is (?:only )?a single legal {replies}", {"number": 1}),
    ("only legal move", r"there (?:is|are) (?:only )?{N} legal {replies}", {}),
    ("only legal move", r"there is no other legal {replies}", {"number": 1}),
    ("only legal move", r"there is (?:nothing but|no move but|no reply but|no legal move but|no move other than) {M}", {"number": 1}),
    ("only legal move", r"{M} (?:is|was) {not}(?:the |his |its |white's |black's )?(?:only|sole|single) "
     r"legal (?:move|reply|answer|response)", {"number": 1}),
    ("only legal move", r"(?:the )?only legal (?:move|reply|answer)(?: for {S})?"
     r"(?: (?:is|was)|[:,]) {M}", {"number": 1}),
    ("only legal move", r"(?:(?:it|this|that) (?:is|was) )?{not}(?:the |{S}'s )?only legal "
     r"(?:move|reply|answer)", {"number": 1, "it": True}),
    ("only move", r"{M} (?:is|was) {not}(?:the |⟦S\d+⟧'s )?(?:only|sole|single) {reply}"
     r"(?: (?:against|to) (?:the )?(?:threat of )?(?P<against>mate|checkmate|loss))?", {}),
    ("only move", r"(?:the |⟦S\d+⟧'s )?(?:only|sole) {reply}"
     r"(?: (?:against|to) (?:the )?(?:threat of )?(?P<against>mate|checkmate))?(?: for {S})?"
     r"(?: (?:is|was)|[:,]) {M}", {}),
    ("only move", r"only {M} (?:saves|defends|holds|helps|parries|keeps|stops|prevents|averts)"
     r"(?: (?:the )?(?P<against>mate))?", {}),
    ("only move", r"{M} (?:is|was) {not}(?:the only one|the only move|forced|compulsory|obligatory|"
     r"necessary|the only way)", {}),
    ("only move", r"forced (?:is|was) {M}", {}),
    ("only move", r"{S} {must} "
     r"(?:play|answer|reply|respond|choose|defend|continue|take|take back|capture|recapture|go|move)"
     r"(?: back)?(?: with)? {M}", {}),
    ("only move", r"{P} {must} (?:go|move|step|retreat|return|take|capture|recapture|run|come)(?: back| away| up| down)*"
     r" (?:to |on |at )?{Q}", {}),
    ("only move", r"{P} {must} (?:take|recapture|capture|take back)(?: it| the ⟦P\d+⟧| back)?(?=[.,;:]|$)", {}),
    ("only move", r"(?:the )?(?:{reply}|king move|capture) (?:is|was) {not}(?:forced|compulsory|the only one)",
     {"reply": True}),
    ("only move", r"{S}'s (?:next )?(?:{reply}|king move|capture) (?:is|was) {not}(?:forced|compulsory)",
     {"reply": True}),
    ("only move", r"{S} has {not}(?:no choice|no alternative|nothing else|no other {reply}|only one {reply})",
     {"reply": True, "plain": True}),
    ("only move", r"(?:(?:it|this|that|this move|the move|which) (?:is|was) ){not}(?:(?:the |{S}'s )?only "
     r"{reply}|forced\b)(?: (?:against|to) (?P<against>mate))?", {"it": True}),
    ("only move", r"(?:the )?only {reply} (?:that|which) (?:is not mated|avoids mate|stops (?:the )?mate|"
     r"prevents (?:the )?mate|does not allow mate)", {"it": True, "against": "mate"}),
    ("only move", r"^(?:the )?(?:only {reply}|forced)[.!]*(?=$|[,:;])", {"it": True}),
    # -- pins ------------------------------------------------------------------
    ("pinned", r"{P},? (?:which )?{be} {not}(?:(?:absolutely |in an absolute |in a relative |relatively )?"
     r"(?:pinned|nailed|tied|bound|fixed|pin|fastened|glued|in a pin|chained|stuck in a pin)(?: down)?)"
     r"(?: (?:to|against|on|onto|in front of) {B})?(?: by {P2})?(?: (?:to|against) {B2})?", {}),
    ("pinned", r"{P} {can}{not}(?:pins?|nails|ties|pinned|pinning) (?:down )?{P2}"
     r"(?: (?:to|against|on) {B})?", {"active": True}),
    ("pinned", r"{any} {not}(?:pins?|nails|pinned|pinning) (?:down )?{P}(?: (?:to|against|on) {B})?", {}),
    ("pinned", r"there is {not}a pin on {P}(?:,? (?:with {B} behind(?: it)?|against {B2}))?", {}),
    ("pinned", r"{any} (?:puts?|places?|sets up|has|keeps) (?:a|the) pin on {P}(?:,? (?:with {B} behind(?: it)?|"
     r"against {B2}))?", {}),
    ("pinned", r"{P},? (?:which )?{be} {not}(?:in |under |stuck in |held in )?(?:a |an absolute |a relative )?pin"
     r"(?: (?:to|against|on) {B})?(?: by {P2})?", {}),
    ("pinned", r"{any} (?:breaks|lifts|ends) the pin (?:on|of) {P}", {"negated": True}),
    # -- threats ---------------------------------------------------------------
    ("threatens", r"{any} {can}{not}(?:threatens?|threatened|is threatening|threat)(?: (?:to play|to "
     r"continue with|to answer with|now))? {M}(?P<mates>,? (?:with |and )?{mate})?", {}),
    ("threatens", r"threatening {M}(?P<mates>,? (?:with |and )?{mate})?", {}),
    ("threatens", r"(?:the|⟦S\d+⟧'s|a) (?:\w+ )?threat(?: of ⟦S\d+⟧'s)?(?: (?:is|was)|:)"
     r" {not}{M}(?P<mates>,? (?:with |and )?{mate})?", {}),
    ("threatens", r"{M} (?:is|was) (?:{not}threatened|{not}(?:the|a) threat)", {}),
    ("threatens", r"(?:the )?threat of {M}(?P<mates>,? {mate})?", {}),
    ("threatens", r"with the threat(?: of)? {M}(?P<mates>,? (?:with |and )?{mate})?", {}),
    ("threatens", r"{any} {can}{not}(?:threatens?|is threatening|threatened)(?: to give| to force|"
     r" a forced| a| immediate)*(?: to)? {mate}{in}{with}", {"what": "mate"}),
    ("threatens", r"(?:threatening|with the threat of|with a threat of)(?: to)?(?: a)? {mate}{in}",
     {"what": "mate"}),
    ("threatens", r"(?:the|⟦S\d+⟧'s) threat is (?:a )?{mate}{in}", {"what": "mate"}),
    ("threatens", r"{mate}{in} is {not}(?:threatened|the threat)", {"what": "mate"}),
    ("threatens", r"there is (?P<not>no )?(?:a |the )?threat of {mate}{in}", {"what": "mate"}),
    ("threatens", r"{S} has (?P<not>no )?(?:a |the )?(?:\w+ )?threat of {mate}{in}", {"what": "mate"}),
    ("threatens", r"{S} has no threats?(?! of| to)", {"what": "nothing", "negated": True}),
    ("threatens", r"{any} {not}(?:threatens?|is threatening|threatened) to {win} {O}{with}", {}),
    ("threatens", r"(?:threatening|with the threat) to {win} {O}", {}),
    ("threatens", r"{S} {not}(?:threatens?|is threatening) nothing(?! less| more| but| short)", {"what": "nothing", "negated": True}),
    ("threatens", r"(?:there is )?no threat(?= |[.,;]|$)", {"what": "nothing", "negated": True}),
    ("parries", r"{any} {not}(?:parries|stops|meets|prevents|wards off|covers|defends against|averts)"
     r" (?:the |⟦S\d+⟧'s )?(?:threat|threats|mate|threat of mate|threat of {M})", {}),
    # -- losing and winning ----------------------------------------------------
    ("loses", r"{P} (?:is|was) {not}(?:lost|gone|doomed|not to be saved)\b", {"owner": True}),
    ("loses", r"{P} (?:falls|drops|cannot be saved|must fall|will be lost|goes)(?: (?:after|to) {M})?(?=[.,;]|$)",
     {"owner": True}),
    ("loses", r"{any},? (?:which )?{not}{can}(?:costs?|costing) (?:{S} )?{O}", {"costs": True}),
    ("wins", r"{any},? (?:and |which )?{can}{not}(?:have |is )?{win} (?P<what>⟦A\d+⟧ for ⟦[PA]\d+⟧){with}", {}),
    ("wins", r"{any},? (?:and |which )?{can}{not}(?:have |is )?{win} {O}(?: for {O2})?(?: (?:on|at) {Q})?{with}{end}", {}),
    ("loses", r"{any},? (?:and |which )?{can}{not}(?:have )?{lose} {O}(?: for {O2})?(?: to {M2})?{with}{end}", {}),
    ("wins", r"(?:,|and|,? thereby) (?P<not>not )?(?:winning|gaining|netting|picking up|wins|gains|"
     r"collecting|bagging) {O}(?: for {O2})?{end}", {}),
    ("loses", r"(?:,|and) (?P<not>not )?(?:losing|dropping|loses|drops) {O}(?: for {O2})?{end}", {}),
    # -- attackers and defenders -----------------------------------------------
    ("attacked", r"{B} (?:is|was) {not}{attacked} (?:by )?(?:only )?{C}(?: (?:pieces|attackers|times|men))?"
     r"(?:,? (?:and|but) (?:(?:is )?{defended} )?(?:by )?(?:only )?(?:{C2}|(?P<no>not))"
     r"(?: (?:pieces|times|defenders))?(?: {defended})?(?: at all)?)?", {}),
    ("attacked", r"{B} (?:is|was) {not}{defended} (?:by )?(?:only )?{C2}(?: (?:pieces|defenders|times))?"
     r",? (?:and|but) (?:is )?{attacked} (?:by )?{C}(?: (?:pieces|attackers|times))?", {}),
    ("attacked", r"{B} (?:is|was) {not}{defended} (?:by )?(?:only )?{C2}(?: (?:pieces|defenders|times))?",
     {}),
    ("attacked", r"{C} {men} {aim} {B}(?:,? (?:and|but|while) (?:only )?(?:{C2}|(?P<no>none|nobody|nothing|no one)) "
     r"(?:defends?|protects?|guards?|covers?)(?: it)?)?", {}),
    ("attacked", r"there (?:is|are) (?:only )?{C} {attackers} (?:on|of|against) {B}(?:,? (?:and|but|against) (?:only )?"
     r"(?:{C2}|(?P<no>no)) {defenders})?", {}),
    ("attacked", r"{B} has {C} enemies,? (?:and|but) (?:only )?(?:{C2}|(?P<no>no)) (?:{defenders}|friends?)", {}),
    ("attacked", r"{B} {be} {attacked},? (?:and|but) (?:nobody|nothing|no one|no piece) (?:protects|defends|guards|covers) it",
     {"none": True}),
    ("attacked", r"{B} has {C} {attackers} (?:and|but|against) (?:only )?(?:{C2}|(?P<no>no)) {defenders}", {}),
    ("attacked", r"{C} {attackers}(?: (?:on|of) {B})?,? (?:against|and|to|versus|for|but)? ?(?:only )?"
     r"(?:{C2}|(?P<no>no))(?: {defenders})?(?: (?:on|at|of) {B2})?", {}),
    ("attacked", r"{S} attacks {B} {T}", {}),
    ("attacked", r"{S} attacks {B} with {N}(?: pieces)?", {}),
    ("attacked", r"{S} has {C} {attackers} (?:on|against) {B}", {}),
    ("all defended", r"{anyone} (?:of ⟦S\d+⟧ )?(?:is|are|stands?|stays?|remains?) {defended}(?: by something)?", {}),
    ("all defended", r"{S} has no {undefended} piece", {}),
    ("all defended", r"(?:nothing|no piece|not one piece)(?: of {S}'?s?)? (?:is )?(?:{undefended})", {}),
    ("all defended", r"(?:nothing|no piece|not one piece)(?: of {S}'?s?)? (?:is )?(?:hangs?|hanging|"
     r"en prise)(?: for {S})?", {"what": "hangs"}),
    ("hanging", r"{P} {be} {not}(?:hanging|en prise|left hanging|there for the taking|free to take)", {}),
    ("hanging", r"{P} {not}hangs?\b", {}),
    ("undefended", r"{B},? (?:which )?{be} {not}(?:{undefended}|left {undefended}|without (?:a )?(?:defender|protection|defence))",
     {}),
    ("undefended", r"(?:nothing|no piece|nobody|no one) (?:defends|protects|guards|covers) {B}", {}),
    ("undefended", r"{B} (?:has no|has not a|lacks|is short of|has lost its|has lost all) (?:defender|protection|defence|protector)", {}),
    ("undefended", r"(?:not one|not a single) piece (?:defends|protects|guards|covers) {B}", {}),
    ("hanging", r"{S} (?:has )?(?:left|leaves) {P} (?:hanging|en prise)", {}),
    ("undefended", r"{any} leaves {P} {undefended}", {"leaves": True}),
    ("hanging", r"{any} leaves {P} (?:hanging|en prise|to be taken)", {"leaves": True}),
    ("defended", r"{B} {be} {not}{defended}(?: by {P2})?(?! \w*⟦)", {}),
    ("defended", r"{P2} {not}(?:defends|protects|guards|covers) {B}", {}),
    ("attacks", r"{any},? (?:and |which )?{not}(?:attacks?|hits?|attacked|attacking|threatens?|is attacking|bears down on|strikes at|gets at|eyes) {P2}", {}),
    ("attacks", r"{P2} (?:is|was) {not}{attacked} by {P}", {}),
    ("attacked", r"{B} {be} {attacked},? (?:and|but) (?:is )?(?:not {defended}|{undefended})", {"none": True}),
    ("attacked", r"{B} {be} {not}{attacked}(?! by)", {}),
    ("attacked", r"{S} has (?:only )?(?:{C2}|(?P<no>no)) {defenders} (?:on|of|for) {B}", {}),
    ("attacked", r"{T} {attacked},? (?:and )?(?:only )?{T2} {defended}", {}),
    # -- castling --------------------------------------------------------------
    ("cannot castle", r"{S} (?:has |have )?(?P<not>not )?(?:lost|forfeited|given up|gave up|forfeits|loses|gives up) "
     r"(?:the |its |his |her )?(?:right|rights|chance|ability|possibility) (?:to castle|of castling){wing}{lasting}",
     {"lasting": True}),
    ("cannot castle", r"{S} (?:has |have )?(?P<not>not )?(?:forfeited|given up|lost|forfeits|gives up) castling{wing}{lasting}",
     {"lasting": True}),
    ("cannot castle", r"{S} has no (?:castling )?right(?:s)?(?: to castle)?{wing}{lasting}", {"lasting": True}),
    ("cannot castle", r"(?:has|have) (?:lost|forfeited|given up|thereby lost) the (?:right|chance|possibility) "
     r"(?:to castle|of castling){wing}{lasting}", {"lasting": True, "clause": True}),
    ("cannot castle", r"(?:and|so|and so) (?:cannot|may not|can not|will not be able to) castle{wing}{lasting}",
     {"clause": True}),
    ("cannot castle", r"{S} (?:cannot|may not|must not|is not allowed to|is unable to|is not able to|"
     r"is prevented from|can not|will not be able to|is forbidden to) castl(?:e|ing){wing}{lasting}", {}),
    ("cannot castle", r"{it} (?:stops|prevents|keeps|deprives) {S} (?:from castling|of castling|of the right to castle){wing}{lasting}", {}),
    ("cannot castle", r"castling{wing} is (?:impossible|not possible|not allowed|illegal|ruled out|"
     r"forbidden|prevented|out of the question|not legal)(?: for {S})?{lasting}", {}),
    ("can castle", r"{S} (?:still )?(?:can|may|is able to|is allowed to)(?: still)? castle{wing}{lasting}", {}),
    ("can castle", r"{S} (?:still )?has (?:still )?the right to castle{wing}", {"right": True}),
    ("can castle", r"castling{wing} is (?:still )?(?:possible|legal|allowed)(?: for {S})?", {}),
    # -- taking ----------------------------------------------------------------
    ("cannot take", r"{P} (?:cannot|may not|must not|dare not|is not able to|is unable to) {take}"
     r"(?: {B2}| it| back| (?:on|at) {Q})?", {}),
    ("cannot take", r"{S} (?:cannot|may not|must not|dare not|is not able to) {take}"
     r"(?: {B2}| it| back)?(?: with {P})?", {}),
    ("cannot be taken", r"{any} (?:cannot|may not|must not) be {taken}(?: by {P2})?", {}),
    ("cannot be taken", r"{P} is (?:immune|untouchable|taboo|poisoned)", {}),
    ("cannot move", r"{any} (?:cannot|may not|must not|is not able to|is unable to) (?:move|budge|stir|"
     r"make a move|leave its (?:square|post|place))(?= at all| away|[.,;:]|$| because| since| without)", {}),
    ("cannot move", r"{P} has (?:no|not a single|no legal) (?:legal )?move", {}),
    ("illegal", r"{M} (?:is|was|would be) {not}(?:illegal|against the rules|not allowed|not possible)", {}),
    ("illegal", r"{M} (?:is|was|would be) (?P<not>legal)", {}),
    # -- tactics -----------------------------------------------------------------
    ("shows", r"{any} (?:is|was) {not}(?:a |an |the )?(?:\w+ )?{motif}(?: (?:of|against|on) (?:the )?{B}"
     r"(?:,? (?:and|,) {B2})?)?", {}),
    ("shows", r"{any} {not}(?:shows|uses|is an example of|illustrates|plays|sets up|gives|makes|has|wins by|"
     r"threatens|creates) (?:a |an )?(?:\w+ )?{motif}(?: (?:of|against|on) {B}(?:,? (?:and|,) {B2})?)?", {}),
    ("shows", r"^(?:a |an |the |yes[,:]? a )?(?:\w+ )?(?:{O3} )?(?:\w+ )?{motif}(?: (?:of|against|on) {B}(?:,? (?:and|,) {B2})?)?"
     r"(?=$|[.,:;]| with check| and| that)", {"it": True}),
    ("shows", r"(?:with|by) (?:a |an )?{motif}(?: (?:of|against|on) {B}(?:,? (?:and|,) {B2})?)?", {}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:forks?|forked|forking) (?:⟦Q\d+⟧ )?{O}(?:,? and {O2})?", {"what": "fork"}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:skewers?|skewered) {O}(?: (?:and|to|against|with) {O2})?", {"what": "skewer"}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:decoys?|decoyed|lures?|draws|attracts?|drags?) {P2}(?: (?:to|onto|into|on) \S+)?",
     {"what": "decoy"}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:deflects?|deflected) {P2}", {"what": "deflection"}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:sacrifices?|sacrificed|gives? up|offers?) {O}", {"what": "sacrifice"}),
    ("shows", r"{any},? (?:which |and )?{can}{not}(?:clears) (?:the way|the line|the file|the square|⟦[LQ]\d+⟧)(?: for {P2})?",
     {"what": "clearance"}),
    ("check", r"{any} {be} {not}in check(?=[.,;:]|$| (?:and|but|from|by|now|here)\b)", {"standing": True}),
    ("check", r"{any} (?:is|was|gives|comes with|goes with|delivers) {not}(?:a )?check(?!mate)\b", {}),
    # -- material ----------------------------------------------------------------
    ("material", r"(?:the )?(?:⟦[AP]\d+⟧|count|material|material count|material balance) (?:is|stands|remains|"
     r"has become) {not}(?P<what>even|level|equal|balanced)", {}),
    ("material", r"(?:(?:both )?(?:sides|players)|(?:white|⟦S\d+⟧) and (?:black|⟦S\d+⟧)) have (?:(?P<what>the same|equal|as much) )?"
     r"⟦[AP]\d+⟧", {"same": True}),
    ("material", r"(?:neither side|neither player|nobody|no one) is (?:ahead|up)(?: in ⟦A\d+⟧)?", {"same": True}),
    ("material", r"(?:{S}|{it}) (?:is|has|stands|remains|was) {not}(?P<what>[^.;:()]+?) "
     r"(?P<lead>ahead|up|down|behind|more|less|to the good)(?: in material)?", {}),
    ("material", r"{S} (?:is|stands) {not}(?P<lead>up|down) (?P<what>{list}(?:(?:,| and|, and) {list})*"
     r"(?: for {list}(?:(?:,| and|, and) {list})*)?)", {}),
    ("material", r"{S} (?:is|stands) {not}(?P<lead>ahead|up|behind|down)(?: (?:in|on) (?:⟦A\d+⟧|material))?(?=[.,;]|$)",
     {"what": ""}),
    ("material", r"{S} has {not}(?P<what>{list}(?:(?:,| and|, and) {list})* (?:for|against) "
     r"{kinds}(?:(?:,| and|, and) {kinds})*)", {}),
    ("material", r"^(?P<what>{list}(?:(?:,| and|, and) {list})* (?:for|against) {list}(?:(?:,| and|, and) {list})*)(?=$|[:.;])", {}),
    ("material", r"{S} has {not}(?P<what>the bishop pair|the two bishops|the pair of bishops)", {}),
    # -- draws ---------------------------------------------------------------------
    ("stalemate", r"{any} (?:is|was) {not}(?:stalemate|stalemated|a stalemate)", {}),
    ("stalemate", r"(?:^|(?<=[:,;] ))(?:a )?stalemate[.!]*$", {}),
    ("stalemate", r"{S} has no legal moves?(?: left)?(?=[.,;]|$)", {"what": "no move"}),
    ("stalemate", r"{S} {can}{not}forces? (?:a )?stalemate{in}{with}", {"forces": True}),
    ("perpetual", r"{S} (?:has|forces|gives|draws by|saves \w+ (?:with|by)|can give|draws with) "
     r"(?P<not>no )?(?:a )?perpetual(?: check)?{with}", {}),
    ("perpetual", r"{any} {can}{not}(?:draws? by|forces?|gives?|leads to|is|with|brings|secures?) (?:a )?perpetual(?: check)?", {}),
    ("perpetual", r"(?:a draw|drawn|draws?) by (?:a )?perpetual(?: check)?", {}),
    ("perpetual", r"there is (?P<not>no )?(?:a )?perpetual(?: check)?(?: for {S})?", {"turn": True}),
    ("draw", r"(?:(?:the game|the position|it) is {not}(?:a )?(?:dead )?(?:drawn|draw)|it is a draw)"
     r"(?: by (?P<rule>stalemate|repetition|the fifty-move rule|insufficient material|threefold repetition))?", {}),
    ("zugzwang", r"{any} (?:is|was|puts? (?:⟦S\d+⟧ )?) ?{not}(?:in )?(?:a )?zugzwang", {}),
    ("zugzwang", r"^(?:a )?zugzwang[.!]*$", {}),
    ("zugzwang", r"every move (?:of ⟦S\d+⟧ |by ⟦S\d+⟧ )?loses", {}),
    ("trapped", r"{P} {be} {not}(?:trapped|caught|shut in for good)", {}),
    ("trapped", r"{it} {be} {not}(?:trapped|caught)", {}),
    ("trapped", r"{P} (?:cannot|not|can not|will not) (?:escape|get away|be saved|get out)", {}),
    ("trapped", r"{P} has no (?:escape|way out|safe square|retreat|square to go to|squares?|flight)", {}),
    # -- pawns and files -------------------------------------------------------------
    ("pawn", r"{P} {be} {not}(?:a |an )?(?P<what>passed|isolated|doubled|backward)(?: (?:pawn|⟦A\d+⟧))?", {}),
    ("pawn", r"{S} has (?P<not>no )?(?:a |an )?(?P<what>passed|isolated|doubled|backward) "
     r"(?:pawn|⟦[AP]\d+⟧)(?: on {Q})?", {}),
    ("file", r"{L} {be} {not}(?P<what>open|half-open|closed)(?: for {S})?", {}),
)  # fmt: skip
