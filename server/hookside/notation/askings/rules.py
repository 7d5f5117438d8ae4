"""The table of askings: which words, at the start of a clause, ask the hands for which job.

The first rule that fits has the clause; the order carries meaning. Every rule is anchored at the clause's verb, which
stands first once its lead ("now", "before closing,", "with the long tail,") is taken off.
"""

from __future__ import annotations

import re

from hookside.notation.askings.clauses import HANGS
from hookside.pattern import CueKind

_COLOUR_NOUN = r"(?:colou?rs?|yarn|shade|col\b|mc\b|cc\b|[b-f]\b|a\b(?! [a-z]))"
_NEAR = r"\b[^.]{0,40}\b"
# What is fixed, and not the place it goes to: "sew the beak between the eyes" fixes no eyes
_ITSELF = (
    r"\b(?:(?!\b(?:between|below|under|beneath|above|over|behind|near|beside|around|round|to|at|level|from|against|"
    r"where|"
    r"and (?:sew|stitch|embroider))\b)[^.]){0,40}\b"
)
_NO_COLOUR = (
    r"(?![^.]*\b(?:head|body|arms?|legs?|fins?|wings?|ears?|tail|feet|foot|flippers?|piece|part|half|side|rounds?|"
    r"rnds?|rows?|"
    r"next|first|second|third|other|same|stitch\w*|loops?|hook|ring|circle|mr|care|it|them|both|needle|pattern|"
    r"instructions|"
    r"spirals?|go|rib\w*|[bf]lo|mesh|mind|total|turns?|tension|"
    r"assembly|way|manner|fashion|ch|chain|sts?|front|back|sc|dc|hdc|increases?|decreases?|incs?|decs?|bobbles?|"
    r"popcorns?|picots?|puffs?|clusters?|markers?)\b)"
)
# "Using Marine make 38 ch": a colour by whatever name the text gives it
_NO_NAME = (
    r"(?!(?:the |a |an |your |\d+ ?mm )*(?:hook|needle|size|magic|both|same|right|wrong|left|front|back|long|start\w*|"
    r"tail|end|two|rounds?|rows?|this|that|it|single|double|order|case|\w+ing)\b)"
)
_FAR = r"\b[^.]{0,100}\b"
_START = r"(?:begin|start|continue|keep(?:\ on)?|finish)(?:ning|ting|ing)?\s+(?:to\s+)?"
_FILLING = (
    r"(?:stuffing|filling|filler|fluff|fib(?:re|er)[ -]?fill?|h[oa]ll?[oa]w?fib(?:re|er)|poly-?fill?|toy fill|"
    r"wadding|batting|padding|s[iy]nt(?:h?epon|etic winterizer|hetic winterizer)|weight|ballast|beads|pellets|rice|"
    r"bran|(?:the |some |pp |handicraft |toy |craft )cotton(?! (?:yarn|thread|ball)))"
)
_FEATURES = (
    r"(?:mouth|smile|eyebrows?|eyelash(?:es)?|nostrils?|whiskers?|cheeks?|teeth|tooth|pupils?|freckles?|nose|face)\b"
)
# What is sewn with yarn alone, though a cheek may be a piece of its own
_STITCHED = (
    r"(?:mouth|smile|eyebrows?|eyelash(?:es)?|nostrils?|whiskers?|french knots?|satin stitch|straight stitch(?:es)?|"
    r"embroidery"
)
_LAST_STITCHES = (
    r"(?:(?:front|back|remaining|rem\.?|last|final|all|\d+|six|five|eight)[^.]{0,25}(?:loops|lps|stitch(?:es)?|sts?|"
    r"sc|dc)|"
    r"(?:last|final) (?:\d{1,2}|round|rnd|row)|"
    r"(?:the )?(?:stitches|sts) of (?:the )?(?:last )?(?:round|rnd|row|r\.? ?\d)|"
    r"(?:the )?(?:six|five|eight)(?=$| and\b|,)|(?:those|these|the|all) \d{1,2}(?=$| and\b|,)|"
    r"these(?=$| and\b|,))"
)
# The ring that a piece begins with is drawn tight, and nothing is shut by it
RING = (
    r"(?:(?:draw|pull|close|tighten|cinch|snug)\w* (?:up )?(?:(?:the|your|this|its|starting|beginning|short|yarn|"
    r"tail|end)"
    r" )*(?:(?:to|and|so as to) (?:close|tighten|pull|draw|shut)(?: up)? (?:the |your )?)?(?:magic |adjustable |"
    r"starting )?"
    r"(?:ring|circle|loop|mr)\b(?: (?:closed|shut|tight(?:ly)?|together|up|firmly|well|in|now|completely))*)"
)
_SHUT = r"(?:closed?(?! (?:hole|end|top|ring|round|side|rnd)s?\b)|shut|tight(?:ly)?|together|up|to close)"
_HOLE = r"(?:opening|hole|gap|top|end|ring|centre|center|neck|bottom|seam|tip)"

PAINT = r"\b(?:blush(?:er)?|rouge|make-?up|pastels?|chalk|lipstick|eye ?shadow)\b"  # no thread

_TABLE: list[tuple[CueKind, list[str]]] = [
    ("hold", [
        # "fasten off and don't cut too short" is no hold: it is cut, and a tail is left
        r"(?:do not|don't|without) (?:fasten|finish|cut|break|snip|tie|bind|f[./]?o\b)\w*\b"
        r"(?! (?:off )?(?:(?:it|them|(?:the|your|this) (?:yarn|end|tail|thread|wool)) )?(?:off )?"
        r"(?:too|so|very) (?:short|close|tight(?:ly)?|near)\b)",
        # a copy that goes on: "Make the second leg the same but do not cut the yarn", "straight on, no cutting"
        r"(?:make|work|crochet|repeat) (?:the |an? )?(?:second|other|another|next|2nd|last|one more)\b[^.;]{0,50}"
        r"\b(?:do not|don't|without) (?:cut|break|fasten|finish)\w*",
        r"(?:(?:we|you|i|now|go|going|carry|carrying|straight|right|on|with|so) ?){0,6},? ?"
        r"no (?:cutting|fastening off)\b",
        r"keep (?:the |your )?(?:working )?(?:yarn|thread|wool)(?: on| here)?$",
        r"(?:the |your )?(?:thread|yarn|wool)\b[^.,;]{0,30} (?:we|you|i) (?:do not|don't) (?:fasten|cut|break)\b",
        r"(?:set|put|lay|place|leave)" + _NEAR
        + r"(?:aside|on hold|to one side|to the side|live|on (?:a|the) (?:stitch )?(?:marker|holder|pin))\b",
        r"(?:remove|take) (?:the |your )?hook",
        r"(?:put|place|slip)\b[^.]{0,30}\b(?:stitch holder|safety pin)\b[^.]{0,20}\bloops?\b",
        r"(?:leave|keep)\b(?:(?!\b(?:loops|each|last loop|stitch(?:es)?|sts?)\b)[^.]){0,40}\bon (?:the|your|my) hook\b",
        r"(?:leave|keep)\b[^.,;]{0,24}\b(?:yarn|thread|it|them|one|working yarn)\b[^.,;]{0,24}"
        r"\b(?:attached|uncut|going)\b(?! to\b)",
        r"(?:leave|keep)\b[^.,;]{0,24}\b(?:unfinished|uncut|unfastened)\b",
        # "leave the yarn on, we carry straight on": no end of yarn, and nothing that is cut
        r"(?:leave|keep) (?:the |your |this |its )?(?:working |second |other |last )?(?:yarn|thread|wool) "
        r"(?:(?:still|just|there|both) )*"
        r"(?:on\b(?! (?:the |your |its )?(?:inside|outside|wrong|right side|back|front|[wr]s\b))|"
        r"(?:attached|connected|joined)\b(?! to (?:sew|close|attach|be|make))|"
        r"(?:as it is|be|alone|running|intact|in place|where it is)\b)",
        r"(?:leave|keep) (?:the |your )?(?:yarn|thread|wool)\b[^.;]{0,50}[,;-] ?(?:we|you|it|the (?:body|head|work))"
        r"(?:'ll| will)? (?:(?:can|just|now) )*"
        r"(?:carry|carries|goe?s?|continues?|keep|starts?|begins?|work|follows?|grows?)\b",
        r"(?:leave|keep)\b[^.,;]{0,30}\b(?:with the yarn on|on the yarn)$",
        r"keep the (?:yarn|thread) of (?:the )?(?:leg|arm|wing|fin|ear|foot|piece|half|first|second|third|last)\b",
        r"(?:do not|don't|never) let go of (?:the |your )?(?:yarn|loop|thread)\b",
        r"keep the (?:yarn|thread)(?: on| of| at) the (?:first|second|third|fourth|last|other)\b",
        r"hold (?:it|this|the)\b[^.]{0,30}(?:aside|later)",
        r"pull up (?:a |the )?(?:long )?loop(?! (?:of|in|from|through|anywhere|with|at|to)\b)",
        r"secure (?:the |your )?(?:live |working )?loop|keep (?:it )?on (?:the |your )?hook\b|hold(?: here)?$",
        r"hold (?:the |your |these |those )?(?:live |last |working |remaining )*(?:loop|stitch(?:es)?|sts)$",
        r"(?:the |your )?(?:live |last |working |remaining )*(?:loop|stitch(?:es)?|sts) (?:stays? |go(?:es)? )?on "
        r"(?:to )?(?:an? |the |your )?(?:(?:stitch|safety|split|spare|locking) )?(?:pin|hold(?:er)?|marker)\b",
    ]),
    ("other", [
        r"(?:put|place|add|insert|drop|pop|slip|tuck|push|hide|fit|set)\w*\b[^.]{0,24}\b(?:bells?|rattles?|squeakers?|"
        r"pebbles?|stones?|marbles?|jingle\w*|music box|capsules?|crinkle\w*)\b(?!\s*stitch)",
        r"(?:pop|tuck|slip|drop|push|hide)\w*\b[^.]{0,24}\b(?:beads?|buttons?|coins?)\b[^.]{0,12}\b(?:in|into|inside|"
        r"between)\b",
        r"(?:do not|don't|no need to|never) (?!forget)",
        r"no (?:stuffing|filling|cotton|eyes|turning)\b",
        r"leave\b[^.]{0,30}\bun(?:stuffed|filled)",
        r"cut (?:pieces|lengths|strips)\b|"
        r"(?:cut|snip) (?:an? |one |two |some )?(?:(?:short|long|small|\d{1,3} ?(?:cm|mm|in(?:ch(?:es)?)?)|\d) )*"
        r"(?:pieces?|lengths?|bits?|strips?) of (?!yarn\b(?! for\b))",
        r"(?:cut|trim) (?:the )?(?:[a-z]+ )?(?:wires?|whiskers?|lashes|eyelash(?:es)?|felt|fringe|hair|card(?:board)?|"
        r"ribbons?|elastic|eyelash thread)\b",
        r"(?:tie|knot|loop|hook|thread) (?:[a-z0-9]+ ){0,3}(?:pieces|lengths|strands|strips|bits) of\b",
        r"cut (?:(?!the\b|your\b|yarn\b|off\b|all\b|both\b)[a-z0-9]+ ){1,3}(?:pieces|lengths|strands|strips|threads)\b",
        r"(?:make|do|add|brush|rub|paint|dab|apply|put|use|give|colou?r|tint|redden|draw)\b[^.;]{0,50}"
        + PAINT + r"|rouge\b",
        r"line (?:the |its |it )(?:[a-z]+ )?with\b",
        HANGS,
        RING + r"(?=$|[,;.:]| (?:and|by|with|then|before|to|so|now)\b)",
    ]),
    ("other", [
        # the last loop: nothing is shut by it
        r"(?:pull|draw|pass|bring|slip)\w* (?:(?:the|your|yarn|cut|loose) )*(?:yarn|end|tail|thread|wool) (?:right )?"
        r"through (?:(?:the|this|that|your|last|final|remaining) )*loop\b(?!s)",
    ]),
    ("close", [
        r"(?:close|cinch|gather)\b(?<!close(?= to (?:the|his|her|its|their|each|one)\b))"
        r"(?! (?:by|with|using) (?:an? |1 |one )?(?:sl|ss|slip|mc|km)\b)"
        r"(?! (?:up )?(?:an? |the )?(?:chain|\d+ ch|\d+ (?:air )?loops)\b)",
        r"(?:draw|pull|cinch|yank)(?! up (?:a|the) (?:long )?loop)" + _NEAR
        + r"(?:tight(?:ly)?|shut|closed|together|in|up)\b(?! a loop| (?:form|shape)\b)",
        r"(?:draw|pull)\b[^.]{0,20}\b(?:the )?" + _HOLE + r"\b",
        r"(?:the )?(?:opening|hole|gap)(?: is(?: to be)?| shall be)? (?:drawn|pulled|sewn|gathered)\b",
        r"(?:tighten|contract|collect|shrink|squeeze)\b[^.]{0,24}\b(?:hole|opening|loops|stitches|sts|remaining|"
        r"rest)\b",
        r"finish (?:off )?(?:with|by) closing\b",
        r"tighten(?: (?:it|up|the (?:thread|yarn|tail|end)))*$",
        r"(?:draw|pull) (?:it |them |all )?up$",
        r"(?:thread|run|weave)(?: (?:it|the (?:end|tail|yarn|thread|needle)))? through,? (?:and |then )?"
        r"(?:pull|draw|gather|tighten|yank|cinch)\b",
        r"(?:thread|weave|run|use|"
        r"using|pass|take|sew|work|"
        r"pull|draw|go|pick up)" + _FAR + _LAST_STITCHES + r"[^.]{0,60}(?:pull|draw|cinch|gather|tight|close)",
        r"(?:thread|weave|run|"
        r"pass|use|using|with)" + _FAR + r"(?:clos(?:e|ing)|pull(?:ing)? (?:it )?tight)\b(?! (?:hole|end|top)\b)",
        r"(?:run|thread|weave|pass|draw|pull)" + _NEAR + r"through" + _NEAR + _LAST_STITCHES,
        r"(?:run|thread|weave|pass|draw|pull)(?: (?:the |your )?(?:end|tail|yarn|wool|thread|needle|it))? through "
        r"(?:the )?(?:sts|stitches)\b(?=$|[.,;]| and\b| then\b)",
        r"(?:sew|stitch)\b(?: \w+){0,4} closed\b(?! (?:hole|end|top|ring|round|side)s?\b)",
        r"(?:over)?(?:sew|whip ?stitch|stitch)\b(?: up| shut| over)?(?: \w+){0,2} (?:opening|hole|gap)\b(?! of)"
        r"(?:\s*(?:closed|shut|up))?",
        r"(?:sew|stitch) (?:(?:it|him|her|them|this|that) )?(?:shut|up)(?:\s*$| (?:with|using|now|from)\b)",
        r"shut(?:\s*$| up\b| with\b| (?:it|him|her|them|this|that)\b)",
        r"(?:fasten|finish|cut|break|leav)\w*\b[^.,;]{0,60}\b(?:and|to) close\b(?: (?:the |up |off |it))?",
    ]),
    ("fasten", [
        r"(?:fasten|finish|bind|cast|tie|end|knot) ?(?:it |them )?off\b",
        r"(?:f ?[./]? ?o|b[./]o)\b(?!ur|ld|r)",
        r"off(?:$|,? (?:with |leaving |leave )?(?:an? )?(?:long |nice |good |short |sewing )*(?:tail|end)\b)",
        r"(?:fasten|finish)$|fasten o$|fasten (?:securely|well|firmly)\b(?! (?:to|onto|on|at)\b)",
        r"off with (?:the|your) (?:yarn|wool|thread)\b",
        r"stop the (?:yarn|thread|wire|wool)\b",
        r"(?:secure|knot|tie)\b[^.,;]{0,24}\band (?:cut|snip)\b",
        r"snip(?=$|,| and pull)|take off$",
        r"(?:cut|break|snip|trim)(?: off)? (?:the |your |off |both |all )*"
        r"(?:yarn|thread|wool|it|[b-f]\b|a\b(?! (?!and\b|then\b)[a-z])|working|strand)",
        r"(?:cut|break off|break)\b(?!.*felt)(?! (?:out\b|(?:an?|the|two|three) (?:[a-z]+ )?(?:circles?|"
        r"discs?|disks?|pieces?|"
        r"squares?|strips?|ovals?|rounds?|shapes?)\b))",
        r"(?:stop|end|finish) (?:the |your )?(?:yarn|thread|wool|work|here)\b"
        r"(?! for (?:the |his |her |its )?(?:safety )?eyes)"
        r"(?! (?:for )?(?:now|an? (?:moment|minute|while|bit|second))\b)",
        r"(?:fasten|finish|end) (?:off )?(?:with an )?invisibl",
        r"(?:fasten|secure|fix|tie|knot)(?: off)? (?:the |your )?(?:yarn|thread|wool)\b"
        r"(?! (?:pieces|lengths|strands)\b)(?!\w* (?:to|onto|on|in|into|around|between|at|end))",
        r"ma(?:k|d)e (?:it |the (?:end|yarn|thread) )?fast\b",
        r"(?:the )?(?:yarn|thread)(?: is(?: to be)?| shall be| gets)? (?:cut|fastened|broken|fix(?:ed)?)\b",
    ]),
    ("tail", [
        r"let an? (?:long )?(?:thread|tail|end|yarn)\b",
        # the end that a piece begins with, since it is sewn on with that
        r"(?:start|begin)(?:ning|ing)? (?:off )?(?:with|by leaving) an? "
        r"(?:(?:nice|good|very|extra|really|long|generous|\d{1,3} ?(?:cm|mm|inch(?:es)?|in|m)) )*"
        r"(?:tail|end|thread|length|start|strand)\b",
        r"(?:the )?(?:thread|yarn|end)s? (?:long |then |to )*(?:let|leave|left) (?:hang|long|over)\b",
        r"(?:leave|leaving|keep|keeping|allow)" + _NEAR
        + r"(?:tails?|ends?(?! (?:of\b[^.]{0,40}\b)?open\b)|length|yarn|thread|strand|rope|string|cm|inch(?:es)?)\b",
        r"(?:leave|leaving|keep|keeping)(?: it| about| at least| some)* \d{1,3} ?(?:cm|mm|in\b|inch|\")",
        r"(?:leave|leaving|keep|keeping) (?:enough|plenty|some)\b[^.]{0,24}\b(?:sew|yarn|thread)",
        r"(?:leave|leaving|keep|keeping) (?:it|this|the end) (?:nice and |very |quite )?long\b",
        r"(?:with )?(?:a )?(?:nice |very |extra )?long (?:tails?|ends?|threads?|yarn|strand)(?:$|,| (?:to|for|left)\b)",
        r"(?:leave|keep)(?: (?:the|a|some|long))* line$",
        r"(?:thread|hide) the (?:starting |beginning )tail",
        r"(?:a )?(?:long )?(?:tail|end|thread|strand) (?:to sew|for (?:sewing|attaching|joining|the seam|later))\b",
        r"(?:a |with )*(?:long )?(?:tail|thread),?:? (?:of )?(?:about |approx\w*\.? )?\d{1,3} ?(?:cm|mm|in\b|inch|\")",
    ]),
    ("eyes", [
        r"(?!sew\w* (?:on )?(?:the |your |his |her )?(?:head|body|arms?|legs?|ears?|muzzle|snout|tail|beak|wings?|"
        r"horns?)\b)"
        r"(?:insert|add|attach|place|put|fix|fit|position|install|secure|push|snap|pop|set|sew|glue|mark|mount|click|"
        r"establish|"
        r"bring (?:on|in)|fasten(?! off))\w*" + _ITSELF
        + r"(?:eyes?|safety (?:eyes?|nose))\b(?!\s*(?:brow|lid|lash|pad|patch|ring|socket|white|spot))",
        r"(?:(?:two|2|black|small|little|tiny|shoe|shiny|round) ){0,4}(?:beads?|buttons?) "
        r"(?:for|as|make) (?:the |his |her |its |good |fine |handsome |nice )*eyes?\b",
        r"(?:the )?(?:safety )?eyes? (?:(?:is|are) )?(?:then |now )?(?:installed|inserted|fitted|fixed|mounted)\b",
        r"(?:the )?(?:safety )?eyes? (?:at|on|in) (?:r|rnds?|rounds?|rows?)\.? ?\d",
        r"(?:the |one |a )?safety eyes? (?:at|on|in|into|through) (?:the )?(?:centre|center|middle|front|top|first)\b",
        r"(?:the |both |your )?(?:safety )?eyes? (?:go|goes|are (?:in|placed|inserted|added|attached|fitted|fixed|to)|"
        r"(?:should|must|have to|need to) (?:be|go)|sit|is|between|in between|:)\b",
    ]),
    ("marker", [
        r"(?:plac(?:e|ing)|put|mov(?:e|ing)|mark|insert|us(?:e|ing)|add|attach|clip|hang|slip|remov(?:e|ing)|take out|"
        r"shift|bring|pop|stick|tuck|slide|pin)\w*\b[^.]{0,50}\b(?:markers?|sm|pm)\b",
        r"(?:stitch )?markers?:? (?:(?:in(?:to)?|on|at)? ?(?:the )?(?:\d|first|last|next|each|every|sts?\b|stitch)|"
        r"(?:out|off|up|in|here|now)$)",
        r"(?:mark (?:sts?\b|stitch(?:es)?\b|\d|"
        r"the|this|first|last|these|both|a|every|each|beg\w*|start|end)|pm\b|sm\b|mark$)",
    ]),
    ("embroider", [
        r"(?:embroider|backstitch)\w*\b",
        r"(?:the |both )?(?:nose|mouth|eyes?|smile|face) embroider\b",
        r"(?:the |both )?eyes?:? (?:[a-z0-9]+ ){1,3}(?:in|with|of) (?:[a-z]+ )?(?:thread|floss)\b",
        r"(?:(?:the|both|two|wee|small|little|tiny|round) ){0,4}eyes? (?:in|with|of|from) (?:[a-z]+ ){0,2}"
        r"(?:thread|floss|silk)\b",
        r"(?:the )?[a-z' ]{2,40} (?:is|are|gets?) (?:then |also |now )?embroidered\b",
        r"sew (?:an?|some|two|three|four|\d)\b(?! ?(?:rnds?|rounds?|rows?|sts?|stitch(?:es)?|[cm]m|in(?:ch(?:es)?)?)\b)"
        r"(?! (?:[a-z]+ ){0,2}(?:buttons?|beads?|pom ?poms?)\b)(?! on (?:each|either|both|one|every)\b)"
        r"[^.;]{0,30}\b" + _FEATURES + r"(?!,? (?:on|onto|to)\b)",
        r"(?:with|using|in) [a-z ]{2,24},? (?:make|work|add|do|draw|stitch|sew)\b[^.]{0,40}\b" + _FEATURES,
        r"(?:the )?" + _FEATURES + r"(?: (?:in|with|from))?(?: (?!is\b|are\b|was\b)[a-z]+){0,2} (?:thread|floss)\b",
        r"(?:(?:an?|one|a few|some|two|three|four|little|small|tiny|long|straight) )+stitch(?:es)? (?:in|of|with) "
        r"[a-z ]{2,20} (?:for|as|makes?|forms?|gives?)\b",
        r"make (?:the |two |his |her |its )?eyes? (?:with|in|of|from) [a-z ]{0,20}(?:silk|thread|floss|wool|yarn)\b",
        # what is made by stitching has no place yet ("a", "two"); what is there already ("the") is sewn on
        r"stitch (?:on )?(?:a|an|some|two|three|four)\b(?!(?: [a-z]+)? (?:buttons?|bells?|ribbons?|patch(?:es)?|"
        r"labels?|pieces?|parts?|beads?)\b)",
        r"stitch (?:on )?(?:the |his |her |its )?(?:[a-z]+ )?(?:" + _FEATURES[:-2] + r"|eyes?|lines?|claws|toes)\b"
        r"(?!(?: piece| patch)?,? (?:on|onto|to|in place)\b)",
        r"(?:(?:one|two|three|four|a few|some|a|small|tiny|black) )*(?:french knots?|satin stitch(?:es)?|"
        r"straight stitch(?:es)?)(?: for\b|$)",
        r"sew(?! on\b)" + _ITSELF + _STITCHED + r")\b",
        r"sew on (?:an?|some|two) (?:[a-z]+ )?" + _STITCHED + r")\b",
        r"(?:make|add|draw|using|with|use|work)\w*\b[^.;]{0,40}\b" + _STITCHED + r"|cheeks?)\b",
    ]),
    ("pin", [r"pin\b|(?:put|place|stick|use|push) (?:a few |some |two |three |four )*pins?\b|(?:fix|hold|"
        r"secure)\b[^.,;]{0,30}\bwith (?:a few |some )?pins\b"]),
    ("stuff", [
        r"lay an? (?:\w+ )?(?:sausage|roll|bit|little) of (?:stuffing|filling|wadding)\b",
        r"finish(?:ing)? (?:the )?padding\b",
        _START + r"pad(?:ding)?\b",
        r"(?:the )?last (?:of the )?(?:stuffing|filling)$",
        r"keep (?:on )?adding(?: (?:more|some|it))*(?: as you go(?: along)?)?$",
        r"(?:" + _START + r")?(?:over|under|light|firm)?-?(?:stuff|fill|restuff|top up|top off)\w*\b(?<!ed)",
        r"(?:add|insert|put|pack|push|use|tuck|pop|slip|stick|poke|drop|shove|squeeze|cram|give|get)\w*" + _NEAR
        + r"(?<!before )(?<!after )" + _FILLING + r"\b",
        r"(?:keep|start|begin|continue|go on|carry on)\w*(?: on)? (?:to )?(?:add|put|push)\w*" + _NEAR
        + _FILLING + r"\b",
        r"garnish\w*\b(?! with (?!" + _FILLING + r"))",
        r"(?:last|final|only) chance (?:to (?:stuff|fill)|for (?:the )?(?:stuffing|filling))\b",
        r"(?:it |he |she |this )?needs? (?:some |more |a (?:bit|little) (?:more )?)*" + _FILLING + r"(?: now| here|$)",
        r"(?:put|pack)\w* (?:the |some |in |plenty of |lots of |a lot of |enough )*cotton\b(?! (?:yarn|thread|ball))",
        r"(?:the )?(?:cotton|" + _FILLING + r") (?:(?:is|are|shall be|is to be) )?(?:only |just |then )?"
        r"(?:put|packed|placed|introduced|inserted)\b(?! not)",
        r"cotton(?: (?:in|inside|full|firmly|lightly|well))*$",
        r"put(?: the| some| a little| little| a bit of)* cotton\b(?! (?:yarn|thread|ball))"
        r"(?:$| (?:only|below|in|inside|into|to))",
        r"(?:put|pack|push|tuck|shove|poke|cram|stick|pop)\w* (?:(?:the|some|your|an?|little|small|big|ball|bit|tuft|"
        r"wad|handful|of) )*(?:cotton(?: wool)?|wool|wadding|fleece|kapok|rags|clippings) (?:in|inside|into|down)\b",
        r"(?:some |a (?:little|bit of) )?(?:cotton )?wool (?:in|inside)(?:$|,| the [a-z]+\b)",
        r"(?:pack|plump|pad)\w* (?:it |them |this |out |up |the \w+ )*(?:with|firmly|tightly|lightly)\b",
        r"(?:put|place|slip|insert|drop|tuck)\b[^.]{0,50}\b(?:inside|in|into)\b[^.]{0,30}\b(?:stuff|fill)\b",
        r"[a-z' ]{0,40}\b(?:is|are|should be|must be|has to be|needs? to be|to be|gets?) (?:now |then |also |"
        r"lightly |firmly |well )*(?:stuffed|filled)\b",
        r"stuff(?:ing)? (?:is|should|lightly|firmly)",
        r"(?:the )?(?:last|final|rest of the|remaining) (?:bit of )?" + _FILLING + r"(?: now| here|$)",
        r"(?:finish|complet|continu|end)(?:e|ing)?(?: with| up| off)? (?:the |your |all )?(?:stuffing|filling)\b",
        r"(?:(?:cotton(?! (?:yarn|thread|ball))|" + _FILLING + r") (?:in|into|inside|aboard)|[a-z ]{0,24}\bfull of "
        + _FILLING + r"$)",
        r"(?:(?:a|some|the last) )?(?:(?:tiny|little|last|wee) )?(?:bit|little|pinch|touch|handful|more|some)"
        r"(?: more| of| the)* (?:stuffing|filling|fibrefill|fiberfill|wadding)\b",
        r"(?:(?:a (?:pinch|bit|little|handful|tuft|ball|scrap|tiny bit)|some|a small amount) of )?(?:more )?" + _FILLING
        + r" (?:goes|go) in(?:to|side)?\b",
    ]),
    ("weave", [
        r"(?!sew in an? (?!end|tail|yarn|thread|strand))"
        r"(?!sew in (?:the |your |all |both )*(?!.*\b(?:ends?|tails?|yarns?|threads?|strands?|it|them)\b)[a-z])"
        r"(?!work in (?:stripes|bands|blocks)\b)"
        r"(?!work in (?!(?:the|all|your|both|loose|yarn|ends?|tails?|threads?|them|it)\b)(?:[b-h]\b|[a-z]{3,12})"
        r"(?: [a-z]{3,12})?(?: throughout| from here(?: on)?| only)?\W*$)"
        r"(?:weave|darn|sew|run|thread|work|tuck) (?:in|away)\b(?! (?:place|(?:an?|the|your|one|both|each|"
        r"continuous|joined|turned|spiral)? ?(?:back|front|next|middle|"
        r"centre|center|same|side|top|rounds?|rows?|spirals?|continuous|pattern|colou?r)))",
        r"(?:weave|darn|sew|run|tuck|"
        r"thread|work)" + r"\b[^.]{0,24}\b(?:ends?|tails?|yarns?|threads?) (?:in(?! place)|away|inside)\b",
        r"(?:weave|darn) (?:it|them|those|everything) (?:in|away)\b",
        r"(?:all |the )*(?:ends?|threads|tails) in$",
        r"(?:remate|finish(?: off)?|tidy(?: up)?) (?:the |all |your )*(?:loose )?(?:ends|threads|tails)\b",
        r"(?:sew|stitch) (?:(?:in|away) )?(?:(?:all|the|both|your|loose|remaining) )*(?:ends|threads|tails)"
        r"(?: (?:in|away|over))?$",
        r"(?:re-?)?enter (?:(?:all|the|both|your) )*(?:wires?|threads?|yarns?|ends?|tails?)\b",
        r"hide (?:the )?lines?$",
        r"hide(?: it| them)?(?: (?:on |at |in )?(?:the )?inside(?: the \w+)?)?$",
        r"(?:weave|hide|bury|darn|tuck|lose)\b[^.]{0,30}\b(?:ends?|tips?|tails?(?! (?:part|piece|fin|feathers)\b)|"
        r"threads?|strands?|yarn)\b",
    ]),
    ("shape", [
        r"(?:flatten|fold|pinch|press|shape|block|squash|bend|mould|mold|steam|roll|coil|form|squeeze|push (?:in|the)|"
        r"smooth)\b",
        r"lay (?:(?:it|them|this|the [a-z]+) )?flat\b",
        r"(?:rs|ws|(?:right|wrong) sides?|inside)(?: facing)? out(?:wards?|side)?$",
        r"(?:pull|draw|stretch|pat)\w*\b[^.]{0,24}\b(?:in|into) (?:form|shape)\b",
        r"turn(?:ing)?\b[^.]{0,30}\b(?:inside|right side|right-side|outside)[ -]?(?:out)?",
    ]),
    ("join", [
        r"close\w* (?:(?:the |each |every |this )*(?:rounds?|rnds?|rows?|ring) )?(?:by|with|using) (?:an? |1 |one )?"
        r"(?:sl|ss|slip|mc|km)\b",
        r"(?:sc|dc|crochet|work) (?:the|both) (?:two |2 )?(?!next|sts?\b|stitches|loops|last)[a-z]{3,12} together\b",
        r"(?:ws|rs|wrong sides?|right sides?|backs) together\b",
        r"(?:sc|dc|crochet|work|working) through both(?:$|,| (?:all )?(?:round|around|sides|layers|pieces|circles)\b)",
        r"(?!.*\b(?:next|2|two|3|three|sts|stitches)\b(?! (?:halves|pieces|parts|legs|sides|panels|motifs|squares|"
        r"layers)\b)"
        r"[^.]{0,24}\btogether\b)"
        r"(?:join|attach|connect|crochet|sc|align|line up|hold|work through|working through)\w*\b(?! (?:with|in|"
        r"using) (?:a |an )?(?:sl|ss|slip))"
        r"[^.]{0,70}\b(?:legs?|pieces?|parts?|halves|panels?|sides together|together|"
        r"both (?:layers|sides|edges|halves)|two layers|motifs?)\b",
        r"(?:join|connect) (?:the |its |both )*(?:two |short |long |narrow |side |row )+(?:ends|edges|sides)\b",
        r"(?:join|connect|crochet|hold)\w*\b(?! (?:with|in|using) (?:a |an )?(?:sl|ss|slip))[^.]{0,70}\b(?:arms?|"
        r"to the|wings?|ears?|fins?|head|body|tail)\b",
    ]),
    ("colour", [
        r"(?:using|with|in) " + _NO_NAME + r"[a-z]{3,12}(?: [a-z]{3,12})?,? "
        r"(?:make|work|chain|ch\b|start|begin|commence)",
        r"(?:re-?)?join(?:ing)?(?: in)? (?:(?:yarn |colou?r )?[a-z]|c\d|mc|cc)(?: (?:again|now|here))?$",
        r"join(?:ing)? in (?!rounds?\b|rows?\b|the\b|a\b)[a-z]{3,12}(?: [a-z]{3,12})?$",
        # "Join fern.", "Pick up dove again"
        r"(?:(?:re-?)?join(?:ing)?(?: in)?|(?:tie|bring) in|(?:pick|take)(?: up)?) "
        r"(?!to(?:gether|\b)|here|now|again|in\b|up\b|at\b|with\b|on\b|all|[a-z]+(?:ly|s)\b|your|our|my|yarn|new|one|"
        r"strip|thread|wool|everything|flat|seam|edge|neatly|well|work|this|that|them|firm|tight|top|bottom)"
        + _NO_NAME + _NO_COLOUR + r"[a-z]{3,12}(?: (?:up|back|again|now|here))*$",
        r"(?:change|changing|switch|swap|introduce|return|go back|drop|pick up|carry|"
        r"alternat)\w*\b(?: back)?(?: over)?(?: to| in| with| on)?[^.]{0,40}\b" + _COLOUR_NOUN,
        r"(?:(?:re-?)?(?:join|attach)|add|use(?! (?:it|them|this) (?:for|as)\b)|using|with|work|tie|continue|start|"
        r"begin|cut|keep)\w*\b"
        r"(?! (?:with|in) (?:a |an )?(?:sl|ss|slip))(?: over)?(?: to| in| with| on)?[^.]{0,40}\b"
        + _COLOUR_NOUN,
        r"(?:chang(?:e|ing)|switch(?:ing)?|swap(?:ping)?)(?: back)? (?:to|into|over|colou?rs?|"
        r"from " + _NO_COLOUR + r"[a-z]{3,12}(?: [a-z]{3,12})? to)\b",
        r"chang(?:e|ing) for (?:the )?(?!second|third|next|last|other)[a-z]{3,12}(?: [a-z]{3,12})?$",
        r"(?:change|switch|swap)\w*\b (?:the |your )?thread\b",
        r"(?:re-?)?(?:join|attach)\w* (?:in )?(?:the |your |a |new )*(?:thread|wool|rope)\b",
        r"make (?:\d{1,2}|two|three|four|five|six|both),? (?:of (?:these|them),? )?(?:in|with|using) "
        + _NO_COLOUR + r"[a-z -]{2,24}$",
        # "Start at the nose with blue"
        r"(?:begin|start)\w* (?:at|from|in|on) (?:the |its )?[a-z' ]{2,40}?,? (?:with|in|using) "
        r"(?:(?:yarn |colou?r )?[a-h]$|"
        + _NO_COLOUR + r"[a-z -]{2,24}$)",
        r"(?:begin|start)\w*\b[^.,]{0,30}, (?:with|in|using) " + _NO_COLOUR + r"[a-z -]{2,24}$",
        r"(?:knit|crochet|work|go on|carry on|continue|weave)\w* (?:only |now |further |again |just )*"
        r"(?:with|in|using) " + _NO_COLOUR + r"[a-z -]{2,24}$",
        # "back to A"
        r"(?:go |switch |change )?back (?:again )?(?:to|with|in) (?:the )?(?:(?:yarn|colou?r) )?[a-h](?: again)?$",
        r"take (?:up )?(?:the |your )?(?!the\b|new\b)[a-z]{3,12} (?:colou?r|yarn|wool)\b"
        r"(?! and (?:thread|sew|cut|an? |the |your ))",
        r"comes? (?:in )?(?:the|our) [a-z]{3,14} (?:yarn|wool|thread)\b",
        r"(?:the )?colou?r (?:now )?changes? to\b",
        r"to " + _NO_COLOUR + r"[a-z]{3,12} (?:change|switch|swap)$",
        r"(?:colou?r|yarn|thread) change(?!s? (?:are|is|can|will|may|should)\b)",
        r"(?:continue|keep|carry on|go on|repeat)\w*(?: on)?(?: with)? (?:the |working |to work |in |your |this |"
        r"these )*"
        r"(?:strip(?:e|es|ing)\b(?! for)|colou?r (?:sequence|pattern|order|changes))\b",
        r"(?:keep|continue|go on|carry on)(?: on)? alternating\b(?![^.]*\b(?:inc|dec|sc|dc))",
        r"drop (?:the )?[a-z]{3,12}(?: yarn)?[,;]? (?:and )?(?:attach|join|add|pick up|change to)\b",
        r"(?:(?:continue|start|begin|work|go on)(?:ing)? )?(?:with|in|using) (?!the (?:other|tail|end|right|wrong|"
        r"hook)|place|half)" + _NO_COLOUR + r"[a-z -]{2,24}$",
        r"(?:main |base |second |first )?(?:colou?r|yarn)\s*[:\-]\s*[a-z][a-z ]{0,30}$",
    ]),
    ("sew", [
        r"(?:sew|sewn(?= (?:on|onto|to|at|between|over|under)\b)|whip(?: ?stitch)?|oversew|overcast|stitch|seam|"
        r"mattress stitch)\b",
        r"(?:knot|tie) (?:it |them |each |one )?(?:on|onto)\b(?! (?:the|your|a) (?:hook|needle))",
        r"(?:lash|catch) (?:(?:it|them|one|the|this|each|open|[a-z]+) ){0,4}?(?:down|on|onto|to|in place|together)\b",
        r"(?:all |both |the )*[a-z' ]{2,24} (?:is|are|gets?) (?:sewn|stitched) "
        r""
        r"(?:on|onto|to|in place|in front|together|at|between|over|under|below|above|behind|around)\b",
        r"(?:attach|tack|glue|tie(?!r)|fix|secure|position|place|arrange|affix|fasten|put|add|mount|hang|"
        r"apply)\w*\b[^.]{0,80}\b"
        r"(?:to|onto|on|together|between|closed|over|under|along|at|behind|in place|into|sides?|opening|seam|with|"
        r"around|firmly|all)\b",
    ]),
    ("turn", [r"(?:turn|flip|rotate)\b(?! not\b)(?! (?:down|up|on|off) the (?:heat\w*|radio|music|lights?|tv|oven)\b)"
        r"(?: the| your)? ?(?:work|piece|over|it|around)?\b"]),
    ("other", [r"(?:go |now )?(?:up|down) (?:a|one|two|half a) hook(?: sizes?)?\b"]),
    ("count", [
        r"count (?:them|again|the lot|here|now|carefully)\b|count$",
        r"(?:count|recount|check)\b[^.]{0,60}\b(?:stitch(?:es)?|sts?|rounds?|rows?|count)\b",
    ]),
]  # fmt: skip

# All rules in one: the name of the group that fits is the kind, with the rule's place behind it
_RULES = re.compile(
    "|".join(f"(?P<{kind}_{at}>{'|'.join(f'(?:{p})' for p in patterns)})" for at, (kind, patterns) in enumerate(_TABLE))
)
_KINDS = {f"{kind}_{at}": kind for at, (kind, _) in enumerate(_TABLE)}


def ruled(clause: str) -> CueKind | None:
    """The job that a clause asks for by the first rule that fits, its verb standing first; None where none does."""
    match = _RULES.match(clause)
    return _KINDS[match.lastgroup or ""] if match is not None else None


# Jobs without a kind of their own: the hands do something (she pauses for it) ...
HANDS = re.compile(
    r"(?:thread|weave|lace|tie|knot|wrap|brush|trim|cut|wind|insert|make|repeat|place|slide|add|put|attach|position|"
    r"measure|"
    r"glue|draw|iron(?= (?:on|the)\b)|"
    r"paint|lay|string|remove|press|pull|push|bring|skip to|go on to|begin|dampen|felt|comb|secure|slip|cover|stretch|"
    r"run(?= (?:a |an |the |some |your )?(?:[a-z]+ )?(?:elastic|ribbon|cord|string|lace|shirring)\b)|"
    r"crochet|move|set|align|arrange|adjust|twist|braid|plait)\b"
)
# ... or only mind something while they work (one line is enough).
MINDS = re.compile(
    r"(?:look|keep|watch|mind|use|try|let|leave|stop|wait|take|give|hold|see|work|start|continue|go|read|refer|"
    r"check(?! out)|test|"
    r"ensure|avoid|note where|find|choose|compare|match|write(?! to\b| me\b| us\b)|do not|"
    r"don't|never(?! (?:an?|counts?|counted)\b)|no (?:stuffing|filling|eyes|turning|need))\b"
)
# "Ss to next st." behind a last round: a stitch to make, which levels the edge
LEVELS = re.compile(
    r"(?:(?:then|and|now|finish with|end with|make|work) )*(?:an? |1 |one )?(?:sl(?:ip)?\.?[ -]?st(?:itch)?|ss)\.? "
    r"(?:in|into|to|in to|through) (?:the )?(?:very )?(?:next|first|following) (?:st(?:itch)?|sc|h?dc|htr|tr)$"
)
EYES_NOW = re.compile(
    r"(?:(?:now |and |so )?(?:it's |it is )?time for (?:the |some |his |her )?(?:safety )?eyes\b|"
    r"(?:(?:now|and|so|next|here),? )*(?:he|she|it|they|(?:the|your|our) [a-z]{3,12}) "
    r"(?:needs?|gets?|wants?|is ready for) (?:(?:his|her|its|their|the|two|some|a pair of) )?"
    r"(?:safety )?eyes(?: (?:next|now|here|first|at this point))?$|"
    r"(?:(?:now|here),? )?(?:(?:i|we|you) )?(?:stop|pause)(?: (?:here|now))? for (?:the |his |her )?(?:safety )?eyes\b|"
    r"(?:safety )?eyes (?:now|here|time|in now)$|eyes? (?:placement|position)\b|"
    r"(?:now (?:for )?the eyes\b(?! (?:are|is|were|look))|"
    r"(?:this|now|here) (?:is|would be) (?:a|the) (?:good |right |best )?(?:time|moment|place|point) for "
    r"(?:the |his |her )?eyes\b)|now'?s the (?:time|moment) for (?:the |his |her )?eyes\b)"
)
EYES_ARE = re.compile(
    r"(?:safety )?eyes?,?(?: \d{1,2} ?mm)?,? (?:in )?(?:between|btwn?|bet\.?) (?:r|rnds?|rounds?|rows?)?\.? ?\d|"
    r"(?:add |put )?(?:the )?(?:safety )?eyes?"
    r"(?:\b(?!:? embroider| (?:look|follow|watch|stare|see|will|make|give)).{0,40}"
    r"\b(?:go|placed|between|inserted|in between|rnds?|rds?|rounds?)\b|"
    r"\s*[:=-]?\s*(?:in |on |at )?r?\.? ?\d{1,3}\b(?! ?(?:mm|x\b|pairs?|pcs|cm)))"
)
# "To fill is not necessary", "No filling is needed", "Stuffing isn't needed"
STAYS_EMPTY = re.compile(
    r"(?:to (?:stuff|fill)(?: (?:it|them|this|the [a-z]+))?|"
    r"(?:the )?(?:stuffing|filling|filler|cotton)(?: (?:it|them|this|here))?) "
    r"(?:is|are)(?: not|n't) (?:necessary|needed|required|wanted|to be done|put(?: in)?|packed(?: in)?)\b|"
    r"(?:it is |it's |there is )?(?:not (?:necessary|needed|required) to|no need (?:to|for)) "
    r"(?:stuff|fill|stuffing|filling)\b|(?:you )?need not (?:stuff|fill)\b"
)
# "Make sure you have 42 stitches."
MUST_HAVE = re.compile(
    r"(?:(?:now|here|please) )*(?:(?:make|be) sure|check|see|ensure|verify)(?: that)? (?:you|there)"
    r"(?:'ve| still have| should have| have| are)(?: got| exactly| still)* \d{1,3} ?(?:sts?|stitches|sc|dc)\b"
)
