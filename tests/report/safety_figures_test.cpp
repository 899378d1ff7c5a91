#include "report/safety_figures.h"

#include <regex>

#include <catch2/catch.hpp>

#include "report/room_words.h"
#include "report/safety_sheet.h"
#include "safety/safety_products.h"

using namespace coatwright;
using namespace std::chrono_literals;
using test::product;
using test::sheet_of;

namespace {

const Time kStart = date::sys_days(date::year(2027) / 3 / 6) + 9h;

Zone utc() {
  return Zone::find("UTC").value();
}

FinishingRoom room_with_fan() {
  FinishingRoom room;
  room.volume = AirVolume::from_cubic_metres(90.0);
  room.fan = AirFlow::from_cubic_metres_per_hour(850.0);
  room.rating = FanRating::kRated;
  return room;
}

SheetCoat coat_of(const std::string& name, double litres, double of_explosive_limit) {
  const auto vapour =
      vapour_of(product(name), Volume::from_litres(litres), Temperature::from_celsius(20.0));
  return {"stool", 1, kStart, PlanVapour{1, vapour, of_explosive_limit, 3.0}};
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += line + "\n";
  }
  return text;
}

/// What is never said of a room, a rag or a respirator.
void check_clears_nothing(const std::string& text) {
  CAPTURE(text);
  CHECK_FALSE(std::regex_search(
      text,
      std::regex(R"(\b(un)?safe(ly)?\b|harmless|no danger|without danger)", std::regex::icase)));
}

}  // namespace

TEST_CASE("A share of the explosive limit names the quarter where it is passed", "[report]") {
  CHECK(explosive_share_text(0.0004) == "under 0.1 % of the lower explosive limit");
  CHECK(explosive_share_text(0.072) == "7.2 % of the lower explosive limit");
  CHECK(explosive_share_text(0.18) == "18 % of the lower explosive limit");
  CHECK_THAT(explosive_share_text(0.26), Catch::Contains("MORE THAN THE QUARTER"));
}

TEST_CASE("Exposure is told as a multiple of its limits, or as a part of them", "[report]") {
  CHECK(exposure_text(0.42) == "0.4 of the limits of exposure");
  CHECK(exposure_text(5.24) == "5.2 times the limits of exposure");
  CHECK(exposure_text(31.6) == "32 times the limits of exposure");
}

TEST_CASE("Without a piece the figures are for a litre of each product", "[report]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray", "raw-linseed-oil"});
  SafetyFigures figures;
  figures.room = room_with_fan();
  const auto lines = figure_lines(figures, sheet, utc(), UnitSystem::kMetric);
  CHECK_THAT(lines.front(),
             Catch::StartsWith("Nitrocellulose lacquer (spray): 1.00 L give off 0.2"));
  CHECK_THAT(joined(lines), Catch::Contains("of which 170 m3/h count (mixing factor 5)"));
  CHECK(lines.back() == kByCalculation);
  check_clears_nothing(joined(lines));
}

TEST_CASE("The coats that set most vapour free are told, in order of time", "[report]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray"});
  SafetyFigures figures;
  figures.room = room_with_fan();
  for (int i = 0; i < 9; ++i) {
    figures.coats.push_back(coat_of("nitrocellulose-lacquer-spray", 0.9 - 0.1 * i, 0.1));
    figures.coats.back().coat = i + 1;
    figures.coats.back().at = kStart + std::chrono::hours(9 - i);
  }
  const std::string text = joined(figure_lines(figures, sheet, utc(), UnitSystem::kMetric));
  CHECK_THAT(text, Catch::Contains("coat 6: ") && Catch::Contains("coat 1: 0.90 L"));
  CHECK(text.find("coat 7:") == std::string::npos);
  CHECK(text.find("coat 6:") < text.find("coat 1:"));
  CHECK_THAT(text, Catch::Contains("3 more coats, each of less vapour."));
}

TEST_CASE("Equal coats of one product on one piece stand in one line", "[report]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray"});
  SafetyFigures figures;
  figures.room = room_with_fan();
  for (int i = 0; i < 3; ++i) {
    figures.coats.push_back(coat_of("nitrocellulose-lacquer-spray", 0.32, 0.03 + 0.01 * i));
    figures.coats.back().coat = 3 + i;
    figures.coats.back().at = kStart + std::chrono::hours(10 * i);
  }
  const auto lines = figure_lines(figures, sheet, utc(), UnitSystem::kMetric);
  CHECK_THAT(lines.front(),
             Catch::StartsWith("Sat 6 Mar 09:00, 19:00, Sun 7 Mar 05:00, stool: nitrocellulose "
                               "lacquer (spray), coats 3, 4, 5: 0.32 L each give off"));
  CHECK_THAT(lines.front(), Catch::Contains("at most at 5.0 % of the lower explosive limit"));
}

TEST_CASE("A room that cannot carry it is said first, with the fan that would", "[report]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray"});
  SafetyFigures figures;
  figures.room = room_with_fan();
  figures.coats.push_back(coat_of("nitrocellulose-lacquer-spray", 4.0, 0.4));
  figures.fan_needed = AirFlow::from_cubic_metres_per_hour(2400.0);
  const auto lines = figure_lines(figures, sheet, utc(), UnitSystem::kMetric);
  CHECK_THAT(lines.front(), Catch::StartsWith("THE ROOM CANNOT CARRY IT"));
  CHECK_THAT(lines.front(), Catch::Contains("2400 m3/h (1413 cfm)"));
}

TEST_CASE("No time for going in is given where no figure says one", "[report]") {
  const SafetySheet sheet = sheet_of({"two-part-polyurethane"});
  SafetyFigures figures;
  figures.room = room_with_fan();
  figures.coats.push_back(coat_of("two-part-polyurethane", 0.4, 0.02));
  figures.runs.push_back({kStart, std::nullopt, std::nullopt});
  const std::string text = joined(figure_lines(figures, sheet, utc(), UnitSystem::kMetric));
  CHECK_THAT(text, Catch::Contains("gives off isocyanates: no figure of its solvent"));
  CHECK_THAT(text, Catch::Contains("off when the data sheet lets it be"));
  CHECK_THAT(text, Catch::Contains("no time is given for going in without a respirator"));
  CHECK(text.find("room not before") == std::string::npos);
}

// EVIDENCE: osha_1910_106 the limits in US gallons outside a cabinet and in one
TEST_CASE("What will stand there is held against the limits of storage", "[report]") {
  const std::vector<StoredLiquid> liquids = {
      {"Lacquer", Volume::from_litres(60.0), FireCategory::kTwo, StoragePlace::kShop}};
  const std::string open = joined(storage_lines(liquids, false, UnitSystem::kMetric));
  CHECK_THAT(open,
             Catch::Contains("60.00 L of liquids that burn") ||
                 Catch::Contains("60.0 L of liquids that burn"));
  CHECK_THAT(open, Catch::Contains("TOO MUCH"));
  CHECK_THAT(open, Catch::Contains(std::string(kStorageReminder)));
  std::vector<StoredLiquid> in_cabinet = liquids;
  in_cabinet.front().place = StoragePlace::kCabinet;
  CHECK(joined(storage_lines(in_cabinet, true, UnitSystem::kMetric)).find("TOO MUCH") ==
        std::string::npos);
  CHECK(storage_lines({}, false, UnitSystem::kMetric).empty());
}

TEST_CASE("The sheet on paper has three things in big letters, and the rest on the back",
          "[report]") {
  const SafetySheet sheet = sheet_of({"oil-wiping-stain", "nitrocellulose-lacquer-spray"});
  SafetyFacts facts;
  facts.day = "Saturday 6 March 2027";
  facts.pieces = "hall bench";
  facts.figures = {"One figure."};
  facts.emergency = "fire 911";
  const Sheet page = safety_as_sheet(sheet, facts, kStart);
  CHECK(page.subtitle == "Saturday 6 March 2027: hall bench");
  std::vector<std::string> big;
  std::size_t after_break = 0;
  bool broken = false;
  for (const SheetBlock& block : page.blocks) {
    if (const auto* box = std::get_if<SheetBox>(&block)) {
      CHECK(box->size == SheetSize::kBig);
      CHECK_FALSE(broken);
      big.push_back(box->title);
    }
    broken = broken || std::holds_alternative<SheetPageBreak>(block);
    if (const auto* table = std::get_if<SheetTable>(&block); table != nullptr && broken) {
      after_break += table->rows.size();
    }
  }
  CHECK(big == std::vector<std::string>{
                   "OILY RAGS CATCH FIRE", "THE VAPOUR IGNITES", "LACQUER DUST BURNS FIERCELY"});
  CHECK(after_break + 1 == sheet.sections.size());  // but for the foot
  CHECK_THAT(page.foot, Catch::Contains("come before this sheet"));
}
