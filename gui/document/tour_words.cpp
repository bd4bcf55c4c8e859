// SPDX-License-Identifier: MIT
#include "gui/document/tour_words.hpp"

#include <QCoreApplication>

#include <array>

namespace bedlore {

namespace {

constexpr auto context = "bedlore::Tour";

struct Row {
    TourStep step;
    const char* title;
    const char* text;
    const char* done = "";
    const char* otherwise = "";
    const char* caution = "";
};

#define SAY(text) QT_TRANSLATE_NOOP("bedlore::Tour", text)

// Figures of the practice water: samples/wrackle-mere. Sources of the cautions: 30 m from overhead
// lines, industry guidance; the others, common practice.
const std::array<Row, tourStepCount> rows{{
    {.step = TourStep::Welcome,
     .title = SAY("The practice water"),
     .text = SAY("Wrackle Mere is invented, so what its bed is like is known. Four pages of notes "
                 "lie beside the map, and in them seven mistakes such as everybody makes: you "
                 "will know each by its sign and mend it on the page. Nothing here can be "
                 "spoiled; every change can be undone. F8 goes on."),
     .caution = SAY("A map is not for navigation, diving or judging where to wade.")},
    {.step = TourStep::TypeALine,
     .title = SAY("Type a line"),
     .text = SAY("F3 takes you to the end of September's page. Type “A 16 12 si” and press "
                 "Return: aim A, 16 wraps out, 12 ft, silt. What it was taken to mean stands "
                 "beside it, and the map has it at once. Ctrl+Z takes it back, Ctrl+Shift+Z "
                 "brings it again."),
     .done = SAY("The line is kept, and the map has it."),
     .caution = SAY("On the bank: look behind before every cast, keep 30 m from overhead lines "
                    "with any rod, and put rods down in lightning.")},
    {.step = TourStep::AskTheMap,
     .title = SAY("Ask the map"),
     .text = SAY("Click any place, or press F6, move with the arrow keys and press Return. On the "
                 "right stands how deep it is, within about how much, and how to reach it. Where "
                 "it is hatched nobody knows: the whole quarter to the east was never fished.")},
    {.step = TourStep::SideView,
     .title = SAY("The side view"),
     .text = SAY("Under the plan lies the bed along one aim, with your line down to it; the pale "
                 "band is how sure it is. Alt+Left and Alt+Right go from aim to aim. The water "
                 "stood up to 0.40 m higher on one day than on another. The bed did not move: all "
                 "depths are drawn for the latest day.")},
    {.step = TourStep::FeetForMetres,
     .title = SAY("One reading stands up like a needle"),
     .text = SAY("Far out from the Sluice on aim B one reading is 9 ft shallower than all around "
                 "it, and the lead came down in silt. Silt does not stand up like that. F3 goes to "
                 "its line; read the note above it, and write the depth as it was measured."),
     .done = SAY("It was 4 m, not 4 ft. The needle is gone."),
     .otherwise = SAY("That depth has changed, but it is not yet what was read: the note above "
                      "the line says off which marks.")},
    {.step = TourStep::OneWrap,
     .title = SAY("A cast that stands a wrap off"),
     .text = SAY("From the Sluice the bed falls away over a ledge, on aims D and F at much the "
                 "same distance. On aim E between them it stands a wrap farther out, and no ledge "
                 "steps out for the width of one cast. F3 goes to the first count of that cast, "
                 "on which all the turns below it hang: take one wrap off. On a flat bed nobody "
                 "could have seen it."),
     .done = SAY("The ledge runs on from aim to aim."),
     .otherwise = SAY("That count has changed, but not by one wrap nearer.")},
    {.step = TourStep::AimsSwapped,
     .title = SAY("In August a hump has moved"),
     .text = SAY("April's hump stands on aim F, at 17 degrees. The page of August speaks of it on "
                 "aim D, yet there D points elsewhere, and C and D no longer follow each other "
                 "from the left. F3 goes to the two lines: give each the other's direction."),
     .done = SAY("C and D point where he cast, and there is one hump again."),
     .otherwise = SAY("C should lie to the left of D, and D on the hump. Both lines must change.")},
    {.step = TourStep::Sticks,
     .title = SAY("A day that lies short"),
     .text = SAY("On September's page all that was felt from the Alders lies nearer than in May, "
                 "and the farther out the more: its ledge is nearly two wraps short. No count is "
                 "wrong; what one wrap is, is wrong. F3 goes to the line. The note on that page "
                 "says how the sticks were laid out."),
     .done = SAY("A wrap of that day is 13 ft, and May and September agree about the ledge."),
     .otherwise = SAY("The sticks have changed, but they did not stand that far apart.")},
    {.step = TourStep::Pulls,
     .title = SAY("A day that is a foot too shallow"),
     .text = SAY("In May what was counted in pulls is a foot shallower than the few depths read "
                 "in feet, near and far. What is the same everywhere comes from the head of the "
                 "page: by its float line the rig adds nothing, and the note says what link and "
                 "float measure. F3 goes to the line."),
     .done = SAY("Every pull of that day has its foot back."),
     .otherwise = SAY("The float line has changed, but link and float together measure something "
                      "else.")},
    {.step = TourStep::Level,
     .title = SAY("A day that floats"),
     .text = SAY("From the Sluice all of August is 1⅓ ft shallower than April, on every aim. That "
                 "is how a wrong water level looks. The note says that the board stood dry, 8 in "
                 "from its zero down to the water; the level line has the water above the zero. "
                 "F3 goes to it."),
     .done = SAY("August and April lie on one bed."),
     .otherwise = SAY("The level has changed, but the water stood 8 in (0.20 m) below the zero.")},
    {.step = TourStep::FloatUp,
     .title = SAY("Clipped with the float up"),
     .text = SAY("Now that the days agree the last one shows. September's aim B goes out beside "
                 "May's, yet in May's first cast the ledge and the firm patch lie farther out: by "
                 "less than a wrap, by as much as the water is deep. With the float up the line "
                 "at the clip is too long by the depth: here 8 ft, about ¾ wrap. F3 goes to the "
                 "count; take that off."),
     .done = SAY("That was the last of the seven."),
     .otherwise = SAY("That count has changed, but not by ¾ wrap nearer."),
     .caution = SAY("Unclip before you fish: a running fish breaks off, and a clip forgotten short "
                    "cracks off the next cast. Finger stall with braid.")},
    {.step = TourStep::Hump,
     .title = SAY("The one that is true"),
     .text = SAY("One hump is left on the shelf before the Sluice, 4 ft high and a few feet wide. "
                 "It looks like a slip of the pen. Leave it: two casts in April and one in August "
                 "felt it, each by itself, in the same place. Three casts that agree are proof. "
                 "What is odd wants another cast, not a cleaner page. F3 shows it."),
     .otherwise = SAY("The hump is missing from one of its three casts. It is true: Ctrl+Z brings "
                      "it back.")},
    {.step = TourStep::Bar,
     .title = SAY("What lies along your aim"),
     .text = SAY("Between aims B and C of the Sluice lies a bar. April's casts ran along it on "
                 "both sides, felt nothing, and the page says flat from end to end. Aims E and F "
                 "of the Alders cross it; F3 shows where. Before you call a bed flat, cast over it "
                 "from a second place.")},
    {.step = TourStep::Felt,
     .title = SAY("What only the lead tells"),
     .text = SAY("Depths do not show everything. In May on aim B the lead tapped from 12¾ to 12 "
                 "wraps: firm ground 9 ft long in silt, and 6 ft wide by September's cast beside "
                 "it. On aim C at 9½ there was no drop at all: a soft hole, and no float told of "
                 "it. F3 shows the firm patch.")},
    {.step = TourStep::Weed,
     .title = SAY("What was felt has its date"),
     .text = SAY("In August two aims of the Sluice met weed beyond the ledge; in April the lead "
                 "went clean through the same place. Depth stays, weed comes and goes, so each "
                 "reading is kept with its day. F3 shows the weed.")},
    {.step = TourStep::YourOwn,
     .title = SAY("Your own water"),
     .text = SAY("That is all of it: a page typed as it stands, a map that leaves open what it "
                 "does not know, and mistakes mended where they were made. Ctrl+N begins a book of "
                 "your own. The practice water stays under Help."),
     .caution = SAY("Margins can be steep, water under 15 °C shocks, and ice is not to be trusted. "
                    "Local rules and the law come first.")},
}};

#undef SAY

QString said(const char* text) {
    return *text == '\0' ? QString() : QCoreApplication::translate(context, text);
}

} // namespace

TourWords tourWords(TourStep step) {
    const Row& row = rows[static_cast<std::size_t>(step)];
    return {
        .title = said(row.title),
        .text = said(row.text),
        .done = said(row.done),
        .otherwise = said(row.otherwise),
        .caution = said(row.caution)};
}

} // namespace bedlore
