#include "judge/rules.h"

#define OWN "the project's own"
#define CUT_OFFS "Varney et al., J Gastroenterol Hepatol 2017; 32 Suppl 1: 53-61"
#define YAML_STANDARD "YAML 1.1; libyaml"
#define RICH_RESULTS "schema.org Recipe; what search engines ask of recipe results (from memory)"
#define FOOD_INFORMATION "Regulation (EU) 1169/2011"

/* in the order of enum rule */
static const struct rule_row rows[RULES] = {
    [RULE_FILE_EMPTY] = {"file-empty", LEVEL_ERROR, "the file is empty",
                         "Write a post, or take the file away.",
                         "A post needs front matter and a body. A file of no bytes is most often a "
                         "save that failed.",
                         OWN},
    [RULE_FILE_TOO_LARGE] = {"file-too-large", LEVEL_ERROR, "the file is larger than {what}",
                             "Move what is not the recipe (pictures, logs) out of the file.",
                             "A post is text. A file this large is not read, so that one mistake "
                             "cannot hold up the others.",
                             OWN},
    [RULE_NOT_UTF8] = {"not-utf-8", LEVEL_ERROR, "the bytes {what} are not UTF-8",
                       "Save the file as UTF-8.",
                       "Everything that is written out is UTF-8, so what is read must be too.",
                       "RFC 3629"},
    [RULE_FRONT_MATTER_MISSING] =
        {"front-matter-missing", LEVEL_ERROR, "the file does not begin with front matter",
         "Begin the file with a line --- and the keys of the recipe.",
         "A post begins with a line of three hyphens, then keys and values "
         "in YAML, then a line of three hyphens.",
         OWN},
    [RULE_FRONT_MATTER_UNCLOSED] =
        {"front-matter-unclosed", LEVEL_ERROR, "the front matter has no closing line ---",
         "Close it with a line of three hyphens before the body.",
         "Without the closing line nobody can tell where the recipe's keys "
         "end and the prose begins.",
         OWN},
    [RULE_YAML_BROKEN] = {"yaml-broken", LEVEL_ERROR, "the YAML cannot be read here: {what}",
                          "{more}", "The keys and values do not form valid YAML.", YAML_STANDARD},
    [RULE_YAML_TOO_DEEP] = {"yaml-too-deep", LEVEL_ERROR,
                            "lists and maps are nested deeper than a recipe ever is",
                            "Flatten this part.",
                            "Nesting is bounded, so that no file can exhaust the machine.", OWN},
    [RULE_YAML_TOO_MANY_ALIASES] =
        {"yaml-too-large", LEVEL_ERROR, "the YAML grows too large when its aliases are followed",
         "Write the values out instead of repeating them by alias.",
         "Aliases that repeat aliases can grow without bound; the size is "
         "limited.",
         OWN},
    [RULE_KEY_UNKNOWN] = {"key-unknown", LEVEL_ERROR, "there is no key “{what}”{more}",
                          "Correct the key, or take it out.",
                          "A key that is not known does nothing, and its writer believes that it "
                          "does.",
                          OWN},
    [RULE_KEY_TWICE] = {"key-twice", LEVEL_ERROR, "the key “{what}” stands here a second time",
                        "Keep one of the two.",
                        "Of two values for one key only one can hold, and which is anyone's guess.",
                        "YAML 1.2.2, 3.2.1.3"},
    [RULE_VALUE_WRONG_TYPE] = {"value-wrong-type", LEVEL_ERROR, "“{what}” should be {more}", NULL,
                               "The value has another shape than the key asks for, so it was left "
                               "out.",
                               OWN},
    [RULE_VALUE_UNREADABLE] = {"value-unreadable", LEVEL_ERROR, "“{what}” cannot be read as {more}",
                               NULL, "The value has the right shape but no meaning for this key.",
                               OWN},
    [RULE_TITLE_MISSING] = {"title-missing", LEVEL_ERROR, "the post has no title", "Add title: ...",
                            "Pages, feeds and data need a name for the dish.",
                            "schema.org Recipe, name"},
    [RULE_YIELD_MISSING] =
        {"yield-missing", LEVEL_ERROR, "the post does not say how many portions it makes",
         "Add yield: and portion:, or portions:, or serves:.",
         "Every promise is about one portion. Without the number of portions none "
         "can be reckoned.",
         OWN},
    [RULE_INGREDIENTS_MISSING] = {"ingredients-missing", LEVEL_ERROR, "the post has no ingredients",
                                  "Add ingredients: and a list.",
                                  "Without ingredients there is nothing to reckon.", OWN},
    [RULE_METHOD_MISSING] = {"method-missing", LEVEL_WARNING, "the post has no method",
                             "Add a heading “## Method” and numbered steps.",
                             "Readers, times, cautions and structured data all need the steps.",
                             OWN},
    [RULE_SLUG_TWICE] = {"slug-twice", LEVEL_ERROR,
                         "the name “{what}” is already taken by {more}; this post is not published",
                         "Rename the file, or give it a slug: of its own.",
                         "The slug names the output files and the stable address of a post, so it "
                         "belongs to one post alone.",
                         OWN},
    [RULE_NAME_RESERVED] = {"name-reserved", LEVEL_WARNING,
                            "a file called “{what}” cannot be kept on every system",
                            "Give {more} another name.",
                            "Windows keeps CON, PRN, AUX, NUL, COM1 to COM9 and LPT1 to LPT9 for "
                            "devices, with any ending, and takes no file whose name ends in a dot "
                            "or a space or holds one of < > : \" | ? * and \\.",
                            "Microsoft, Naming Files, Paths, and Namespaces; from memory"},
    [RULE_CHARACTER_HIDDEN] = {"character-hidden", LEVEL_WARNING,
                               "a character that cannot be seen stands here ({what})",
                               "Delete it and type the words again.",
                               "Direction controls and zero-width characters change how text reads "
                               "without showing; they usually came with a paste.",
                               "Unicode Technical Report 36"},
    [RULE_HTML_DROPPED] =
        {"html-dropped", LEVEL_WARNING, "{what} is not published",
         "Write it in Markdown; links may be http, https, mailto or relative.",
         "Raw HTML and other links could carry script into a reader's browser, so "
         "they are left out.",
         OWN},
    [RULE_TABLE_PLAIN] = {"table-plain", LEVEL_WARNING,
                          "this table is published as plain words, with its bars and dashes",
                          "Write it as a list.",
                          "CommonMark, which posts are written in, has no tables; readers would "
                          "see the marks.",
                          "CommonMark 0.30"},
    [RULE_BODY_TOO_DEEP] = {"body-too-deep", LEVEL_ERROR, "{what}",
                            "Flatten this part, or shorten its link definitions.",
                            "Nesting, marks and repeated link definitions are bounded, so that no "
                            "file can exhaust the "
                            "machine. The body was not read.",
                            OWN},
    [RULE_LINE_RUNS_ON] =
        {"line-runs-on", LEVEL_ERROR, "“{what}” belongs to the line above, as it stands",
         "Begin every line of the list equally far in, with a dash and a space.",
         "A line that begins further in than the one above goes on with it, dash and all: the two "
         "are one ingredient.",
         YAML_STANDARD},
    [RULE_LINE_UNREADABLE] =
        {"line-unreadable", LEVEL_ERROR, "this line cannot be read as an ingredient: {what}",
         "Write an amount, a unit and a food, or use the form {food: ..., amount: "
         "...}.",
         "The line gives no food, or its parts contradict each other.", OWN},
    [RULE_LINE_STRUCK] = {"line-struck", LEVEL_NOTE,
                          "“{what}” is struck out and counts as not on the list",
                          "Take it out of the list, or take the strokes away.",
                          "Struck text is what a writer has taken back. A page that prints it "
                          "without its strokes would give it again.",
                          OWN},
    [RULE_AMOUNT_MISSING] =
        {"amount-missing", LEVEL_WARNING, "no amount for “{what}”",
         "Give a weight or a measure, if only a pinch.",
         "An ingredient without an amount cannot be added up, so the portion may "
         "carry more than it seems.",
         OWN},
    [RULE_UNIT_UNKNOWN] = {"unit-unknown", LEVEL_ERROR, "there is no unit “{what}”{more}",
                           "Correct the unit.",
                           "The word stands where a unit stands, but no region has such a unit.",
                           OWN},
    [RULE_UNIT_AMBIGUOUS] = {"unit-ambiguous", LEVEL_WARNING, "“{what}” can mean {more}",
                             "Write the one you mean.", "The unit means different amounts.", OWN},
    [RULE_FOOD_UNKNOWN] = {"food-unknown", LEVEL_WARNING, "“{what}” is not in the larder{more}",
                           "Use a name that the larder has, or add the food to your tables.",
                           "A food that is not in the tables has no weight and no contents, so the "
                           "portion's standing stays unknown.",
                           OWN},
    [RULE_FOOD_AMBIGUOUS] = {"food-ambiguous", LEVEL_WARNING, "“{what}” can mean {more}",
                             "Write which of the two it is.",
                             "The name means different foods in different places, and neither the "
                             "post's measures nor the unit decide. The first was taken.",
                             OWN},
    [RULE_FOOD_CORRECTED] = {"food-corrected", LEVEL_NOTE, "“{what}” is read as {more}",
                             "Correct the spelling, or give the name that is meant.",
                             "One name of the larder is a slip of the pen away. It is reckoned "
                             "with, but no promise rests on a guess.",
                             OWN},
    [RULE_WORDS_PASSED] = {"words-passed-over", LEVEL_NOTE,
                           "“{what}” was passed over: it is not known as a food or a preparation",
                           "Nothing, if it changes neither the food nor its weight; else say it in "
                           "other words.",
                           "What a line says and nobody understood may matter to a reader.", OWN},
    [RULE_WEIGHT_UNKNOWN] =
        {"weight-unknown", LEVEL_WARNING, "nobody has weighed {what}{more}",
         "Give the weight as well: “1 cup (120 g) ...”.",
         "The tables have no density or piece weight for this food in this form.", OWN},
    [RULE_MEASURES_DISAGREE] =
        {"measures-disagree", LEVEL_WARNING, "the two measures of “{what}” disagree: {more}",
         "Weigh it, and correct the measure that is wrong; the weight was used.",
         "Both measures were brought to grams; they differ by more than the "
         "spread of the food's density explains.",
         OWN},
    [RULE_TABLE_ROW_WRONG] =
        {"table-row-wrong", LEVEL_ERROR, "in the tables, “{what}”: {more}",
         "Correct the row; it was left out.",
         "A row of a table is not as its schema asks, or a figure has no source "
         "or basis.",
         OWN},
    [RULE_SERVE_DISAGREES] =
        {"serve-disagrees", LEVEL_NOTE,
         "by composition some serves of this table are plainly too much: {what}",
         "The serves hold all the same. Ask whoever gave them, or see where the figures come from "
         "with dariole larder.",
         "A serve holds above composition; where the middle figures come to more than twice a "
         "limit, that is told once for the table.",
         OWN},
    [RULE_LABEL_OPEN] =
        {"label-open", LEVEL_WARNING,
         "the larder has no “{what}”, so what the packet holds stays open{more}",
         "Correct the name, or add the ingredient to the tables.",
         "An ingredient of a packet that is not in the larder may hold anything, up to what the "
         "packet's list and figures leave to it.",
         OWN},
    [RULE_LABEL_CONTRADICTS] =
        {"label-contradicts", LEVEL_ERROR,
         "the packet of “{what}” contradicts itself: nothing keeps to the {more}",
         "Look at the packet again: the order of its list, its percentages, for how much its "
         "figures are given, and whether more than 100 g go into 100 g of it (made-from).",
         "The bounds of a packet are what its list and its figures leave together; where nothing "
         "is "
         "left, its figures bound each group by themselves.",
         FOOD_INFORMATION},
    [RULE_PORTION_OVER] = {"portion-over", LEVEL_ERROR,
                           "{what}: one portion is over the limits, with {more}", NULL,
                           "It is more likely than not that the portion holds more than a limit of "
                           "the phase: of one food's serve, of lactose, or of one sitting.",
                           CUT_OFFS},
    [RULE_PORTION_CHOICE] =
        {"portion-choice", LEVEL_WARNING,
         "{what}: one portion is over the limits in some ways to make it, with {more}", NULL,
         "Whether the portion is over hangs on an ingredient that is optional or has "
         "alternatives.",
         CUT_OFFS},
    [RULE_PORTION_CLOSE] = {"portion-close", LEVEL_NOTE,
                            "{what}: one portion is close to a limit, with {more}", NULL,
                            "The portion is within, but more than one in five could be over, by "
                            "the spread of its figures and amounts.",
                            CUT_OFFS},
    [RULE_PORTION_UNKNOWN] =
        {"portion-unknown", LEVEL_WARNING,
         "{what}: not enough is known to say how one portion stands: {more}",
         "Say so to readers, or add the missing figure to your tables with its "
         "source.",
         "Without this figure the portion is within, with the most that it could be it is "
         "over. Not known is not zero.",
         OWN},
    [RULE_YIELD_MISFIT] =
        {"yield-misfit", LEVEL_WARNING, "yield and portion do not fit: {what}{more}",
         "Give both in the same thing, or say portions:.",
         "The number of portions follows from the yield and one portion; here they do "
         "not divide, or are not of one kind.",
         OWN},
    [RULE_NUTRITION_PARTIAL] =
        {"nutrition-partial", LEVEL_NOTE, "nutrition is left out: figures cover only {what}{more}",
         NULL,
         "Nutrition is shown only where at least 95 % of a portion's weight has "
         "figures.",
         OWN},
    [RULE_INGREDIENT_UNUSED] =
        {"ingredient-unused", LEVEL_WARNING, "the method never uses “{what}”",
         "Say in which step it goes in, or take it off the list.",
         "A reader who has weighed an ingredient wants to know where it goes.", OWN},
    [RULE_FOOD_UNLISTED] = {"food-unlisted", LEVEL_WARNING,
                            "the method names “{what}”, which is not on the list",
                            "Add it to the ingredients with its amount.",
                            "What is not on the list is neither bought nor reckoned.", OWN},
    [RULE_STRAINED_OUT] =
        {"strained-out", LEVEL_WARNING,
         "“{what}” is taken out again, but what dissolves of it stays behind: it counts whole",
         "Leave it out from the start, or cook it in oil alone and take it out of that.",
         "Short-chain carbohydrates dissolve in water, stock and milk, and stay there when the "
         "food "
         "is strained out; they do not dissolve in oil.",
         OWN},
    [RULE_FOOD_BESIDE] = {"food-beside", LEVEL_NOTE,
                          "the method serves “{what}” with it, which is not on the list",
                          "List it, or say that it is not counted.",
                          "What is eaten beside a dish counts in the same sitting.", OWN},
    [RULE_INGREDIENT_ORDER] = {"ingredient-order", LEVEL_NOTE,
                               "“{what}” is used before {more}, but listed after it",
                               "List ingredients in the order of use.",
                               "Cooks read the list along with the method.",
                               "common practice, no source"},
    [RULE_STEP_AMOUNTS] = {"step-amounts", LEVEL_WARNING,
                           "the steps use {what}, the list has {more}",
                           "Make the amounts in the steps add up to the list's.",
                           "The amounts that steps name must be those that were reckoned.", OWN},
    [RULE_PART_UNKNOWN] = {"part-unknown", LEVEL_NOTE,
                           "the method's part “{what}” has no ingredients of its own{more}",
                           "Give the part the same name in the list and in the method.",
                           "Parts with one name in both places let readers work side by side.",
                           OWN},
    [RULE_TOOL_UNLISTED] = {"tool-unlisted", LEVEL_NOTE,
                            "the method needs “{what}”, which is not under equipment",
                            "Add it to equipment:.",
                            "Where equipment is listed, it should be whole.", OWN},
    [RULE_TIME_TOTAL] = {"time-total", LEVEL_WARNING, "the declared {what} do not add up: {more}",
                         "Correct one of the times.",
                         "The total declared is shorter than its own parts.", OWN},
    [RULE_TIME_DECLARED] =
        {"time-declared", LEVEL_WARNING, "declared: {what}; the steps take {more}",
         "Correct the time, or the step.",
         "The durations that the steps state come to more than the post declares. "
         "Only stated durations are counted.",
         OWN},
    [RULE_TIME_ABOVE] = {"time-declared-high", LEVEL_NOTE,
                         "declared: {what}; the steps state no more than {more}",
                         "Correct the time, or say in the steps how long each takes.",
                         "A time far above that of the steps is mostly two that run side by side, "
                         "added up.",
                         OWN},
    [RULE_HEAT_IMPLAUSIBLE] = {"heat-implausible", LEVEL_ERROR,
                               "“{what}” is no heat for it: {more}",
                               "Correct the number or its scale.",
                               "A home oven reaches about 275 °C and bakes above 100 °C; the page "
                               "shows such a heat as it is written and converts it to no scale.",
                               OWN},
    [RULE_MICROWAVE_PAIR] = {"microwave-pair", LEVEL_WARNING,
                             "“{what}”: less power needs more time, not less; {more}",
                             "Correct the times, or the powers.",
                             "The same energy takes longer at a lower power.", OWN},
    [RULE_PIECES_MISFIT] = {"yield-misfit-pieces", LEVEL_WARNING,
                            "the method makes “{what}”, but {more}", "Let both say the same.",
                            "Readers cut what the method says and eat what the portion says.", OWN},
    [RULE_TIME_CLAIM] = {"time-claim", LEVEL_ERROR, "the claim “{what}” does not hold: {more}",
                         "Drop the claim, or shorten the method.",
                         "The stated durations come to more than the claim promises.", OWN},
    [RULE_TIME_TITLE] = {"time-title", LEVEL_WARNING,
                         "“{what}” promises a time that the steps do not keep: {more}",
                         "Change the words, or the method.",
                         "The stated durations come to more than the title or summary promises.",
                         OWN},
    [RULE_HEAT_PAIR] = {"heat-pair", LEVEL_WARNING, "“{what}” do not agree: {more}",
                        "Correct the one that is wrong.",
                        "The same heat is given in two scales, and the two are further apart than "
                        "rounding explains.",
                        "ITS-90 scales: F = C x 9/5 + 32"},
    [RULE_HEAT_UNITLESS] = {"heat-unitless", LEVEL_WARNING,
                            "“{what}” does not say which degrees{more}", "Write °C or °F.",
                            "A reader in another country sets another oven.", OWN},
    [RULE_MICROWAVE_POWER] =
        {"microwave-power", LEVEL_WARNING, "“{what}”: a microwave time without a power{more}",
         "Add the power: “2 minutes at 800 W”.",
         "Ovens differ by a factor of two in output; a time means nothing without "
         "the power it was tested at.",
         "IEC 60705 rates output power (from memory)"},
    [RULE_CLAIM_FALSE] = {"claim-false", LEVEL_ERROR, "the claim “{what}” does not hold: {more}",
                          "Drop the claim, or change what breaks it.",
                          "An ingredient of the post breaks the claim in every way to make it.",
                          FOOD_INFORMATION},
    [RULE_CLAIM_ON_CHOICE] = {"claim-on-choice", LEVEL_WARNING,
                              "the claim “{what}” hangs on a choice: {more}",
                              "Say which choice keeps it, or drop the alternative.",
                              "Some ways to make the dish keep the claim and some break it.",
                              FOOD_INFORMATION},
    [RULE_CLAIM_LABEL] =
        {"claim-label", LEVEL_WARNING, "the claim “{what}” holds only if the label says so: {more}",
         "Buy it so labelled, and write the word of the label before the food in the line.",
         "This food keeps the claim only when it is sold as such.",
         "Regulation (EU) 828/2014; 21 CFR 101.91"},
    [RULE_CLAIM_TRACE] =
        {"claim-label-trace", LEVEL_NOTE,
         "the claim “{what}” holds but for traces, which the label tells: {more}",
         "Write the word of the label before the food in the line, as “gluten-free cornflour”.",
         "The food has nothing of it in it, but may have come near it.",
         "Regulation (EU) 828/2014; 21 CFR 101.91"},
    [RULE_CLAIM_UNKNOWN] = {"claim-unknown", LEVEL_WARNING,
                            "the claim “{what}” cannot be checked: {more}", NULL,
                            "No figure or word in the tables decides this claim.", OWN},
    [RULE_CLAIM_CLOSE] = {"claim-close", LEVEL_WARNING, "the claim “{what}” hardly holds: {more}",
                          "Make it a little less, or say that it is close.",
                          "A promise of the diet should not hang on a spoon that is heaped.",
                          CUT_OFFS},
    [RULE_CLAIM_HEALTH] =
        {"claim-health", LEVEL_WARNING, "“{what}” is a claim that no figure supports{more}",
         "Leave it out, or say what was measured.",
         "General promises of health are not the writer's to make, and in many places "
         "not lawful.",
         "Regulation (EC) 1924/2006"},
    [RULE_SAFETY_PRACTICE] = {"safety", LEVEL_WARNING, "“{what}”: {more}", NULL,
                              "The post states a practice that published food-safety rules advise "
                              "against. The caution's own row names the source and whom to ask.",
                              "content/tables/cautions.yaml, row by row"},
    [RULE_SAFETY_DANGER] =
        {"safety-danger", LEVEL_ERROR, "“{what}”: {more}", NULL,
         "The post states a practice that is known to hurt people. The caution's own "
         "row names the source and whom to ask.",
         "content/tables/cautions.yaml, row by row"},
    [RULE_SAFETY_NOTE] = {"safety-note", LEVEL_NOTE, "“{what}”: {more}", NULL,
                          "Something to look at once more; the caution's own row names the source.",
                          "content/tables/cautions.yaml, row by row"},
    [RULE_DATA_RECOMMENDED] = {"data-recommended", LEVEL_NOTE,
                               "readers and search engines miss {what}",
                               "Add {more} to the front matter.",
                               "Search engines recommend it for recipes.", RICH_RESULTS},
    [RULE_IMAGE_MISSING] =
        {"image-missing", LEVEL_NOTE, "the post has no picture{what}",
         "Add image: {file: ..., alt: ...}.",
         "Search engines ask for a picture, and readers who do not see it for its "
         "words.",
         RICH_RESULTS},
    [RULE_IMAGE_FILE] =
        {"image-file", LEVEL_WARNING, "the picture “{what}” {more}",
         "A picture lies beside its post or in the content folder: {file: images/NAME.jpg, alt: "
         "...}.",
         "The file is copied beside the outputs as images/SLUG.jpg. A post whose picture is not "
         "there is published without one.",
         OWN},
    [RULE_LINK_DEAD] =
        {"link-dead", LEVEL_WARNING, "the link “{what}” leads to no post",
         "Link to a post by its file or slug: (soup.md); a draft has no page.",
         "A link to another post's file becomes one to its page, by its slug. Where there is no "
         "such post, the reader meets a page that is not there.",
         OWN},
    [RULE_IMAGE_LEFT] =
        {"image-left", LEVEL_NOTE, "the picture “{what}” is not copied beside the outputs",
         "Publish it at the same place beside the page, or give its whole address (https://...).",
         "Only the picture under image: is copied. Another one keeps the address it has, and "
         "where nothing stands at that address a page shows a gap.",
         OWN},
    [RULE_DISH_HEADING] = {"dish-heading", LEVEL_ERROR,
                           "the dish “{what}” has no heading of its name",
                           "Write ## and the dish's name above its steps.",
                           "In a round-up each dish's method stands under a heading of its name.",
                           OWN},
    [RULE_MEMBER] = {"member", LEVEL_ERROR, "“{what}” cannot be gathered: {more}",
                     "Name posts of the content folder by their slugs, each once.",
                     "A round-up lists its members with their verdicts; each must be a published "
                     "recipe.",
                     OWN},
    [RULE_ROUND_UP_COUNT] =
        {"round-up-count", LEVEL_WARNING,
         "the title “{what}” promises another number of dishes: there are {more}",
         "Change the number, or the dishes.", "Readers count on what a title promises.", OWN},
    [RULE_ROUND_UP_MIXED] =
        {"round-up-mixed", LEVEL_ERROR,
         "the post has more than one of ingredients:, dishes: and gathers:",
         "Keep one: ingredients for a recipe, dishes for several in one file, gathers for other "
         "posts.",
         "What is one portion of could not be told.", OWN},
    [RULE_MENU_OVER] =
        {"menu-over", LEVEL_ERROR, "one portion of each eaten together is over the limits{more}",
         "Take another dish into eaten-with:, or say that it is for another sitting.",
         "The limit of a sitting counts all that is eaten at once, and the same food "
         "in two dishes is one serve.",
         CUT_OFFS},
    [RULE_MENU_CLOSE] = {"menu-close", LEVEL_WARNING,
                         "how one portion of each stands eaten together is {what}{more}",
                         "Take another dish into eaten-with:, or serve less of one.",
                         "What a post says is eaten with it is a promise about one sitting.",
                         CUT_OFFS},
    [RULE_REVIEW_LAPSED] =
        {"review-lapsed", LEVEL_WARNING, "the review by {what} does not hold: {more}",
         "Have it reviewed again: dariole worksheet --review prints what is to be "
         "signed, with its digest.",
         "A review is of what was signed: the lines, the figures of their foods "
         "and the limits. The page does not name it until it holds again.",
         OWN},
    [RULE_VIDEO_CLIPS] =
        {"video-clips", LEVEL_WARNING, "the clip “{what}” {more}",
         "Times rise and lie within length:; a step is a number of the method's, from 1.",
         "Clips become chapters of the video and addresses of its moments; a wrong one leads the "
         "reader to the wrong place.",
         "W3C, WebVTT: The Web Video Text Tracks Format; schema.org, Clip"},
    [RULE_ANSWER_UNUSED] = {"answer-unused", LEVEL_WARNING, "the answer “{what}” fits no finding",
                            "Take it out: what it answered is gone.",
                            "An answer that is no longer needed would hide the next finding.", OWN},
    [RULE_FINDINGS_MANY] = {"findings-many", LEVEL_NOTE, "{what} more findings are not told",
                            "Mend the first ones; those behind them come to light then.",
                            "Of one post the 500 findings that matter most are told.", OWN},
};

const struct rule_row *
rules_row(enum rule r)
{
    return &rows[r];
}

bool
rules_by_id(struct slice id, enum rule *out)
{
    for (int i = 0; i < RULES; i++)
        if (slice_is(id, rows[i].id)) {
            *out = (enum rule)i;
            return true;
        }
    return false;
}
