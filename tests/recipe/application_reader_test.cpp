#include "recipe/application_reader.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;

namespace {

std::string tool_text(const std::string& name, const std::string& method) {
  return "[[tool]]\nname = \"" + name + "\"\ntitle = \"a " + name + "\"\nmethod = \"" + method +
         "\"\nusual = true\nefficiency_low_percent = 50\nefficiency_high_percent = 80\n"
         "efficiency_percent = 60\nsource = \"judgement\"\nhow = \"judgement\"\n";
}

const std::string kApplication = "format = 1\n" + tool_text("gun", "spray") +
                                 "small_parts_percent = 40\n" + tool_text("brush", "brush") +
                                 tool_text("pad", "pad") + tool_text("cloth", "wipe") +
                                 "[waste]\npercent = 10\nsource = \"judgement\"\n"
                                 "how = \"judgement\"\n"
                                 "[[can]]\nname = \"1 L\"\nmillilitres = 1000\n"
                                 "[[can]]\nname = \"quart\"\nus_fluid_ounces = 32\n";

/// The text with the first of a passage changed.
std::string with(std::string text, const std::string& passage, const std::string& other) {
  const auto at = text.find(passage);
  REQUIRE(at != std::string::npos);
  return text.replace(at, passage.size(), other);
}

Result<Application> read(const std::string& text) {
  return parse_application(text, "application.toml");
}

}  // namespace

TEST_CASE("Tools, waste and cans are read", "[recipe]") {
  const auto application = read(kApplication);
  REQUIRE(application);
  const Tool* gun = application->tool("gun");
  REQUIRE(gun != nullptr);
  CHECK(gun->efficiency_percent == 60.0);
  CHECK(gun->small_parts_percent == 40.0);
  CHECK(gun->efficiency_range.high == 80.0);
  CHECK(application->tool("roller") == nullptr);
  CHECK(application->usual_for(Method::kWipe).name == "cloth");
  CHECK(application->waste.percent == 10.0);
  REQUIRE(application->cans_in(UnitSystem::kUs).size() == 1);
  // EVIDENCE: nist_sp811 B.8 (from memory)
  CHECK(application->cans_in(UnitSystem::kUs)[0].volume().litres() == Approx(0.946353));
}

TEST_CASE("What is wrong in the table of tools and cans is named", "[recipe]") {
  check_refused(read(with(kApplication, "efficiency_percent = 60", "efficiency_percent = 90")),
                {"tool[1].efficiency_percent", "90", "50 to 80"});
  check_refused(
      read(with(kApplication, "efficiency_high_percent = 80", "efficiency_high_percent = 40")),
      {"efficiency_high_percent", "at least"});
  check_refused(read(with(kApplication, "small_parts_percent = 40", "small_parts_percent = 70")),
                {"small_parts_percent", "at most"});
  check_refused(read(with(kApplication, "\"spray\"", "\"roll\"")), {"tool[1].method", "roll"});
  check_refused(read(with(kApplication, "\"pad\"\nusual", "\"brush\"\nusual")),
                {"tool[3].usual", "brush"});
  check_refused(read(with(kApplication, "usual = true", "usual = false")), {"spray", "usual"});
  check_refused(read(with(kApplication, "\"brush\"\ntitle", "\"gun\"\ntitle")),
                {"tool[2].name", "once"});
  check_refused(read(with(kApplication, "us_fluid_ounces = 32", "millilitres = 900")),
                {"us_fluid_ounces"});
  check_refused(read(with(kApplication, "millilitres = 1000", "")), {"can[1]", "millilitres"});
  check_refused(read(with(kApplication, "percent = 10\n", "percent = 10\ncolour = 1\n")),
                {"waste.colour", "colour"});
}

TEST_CASE("The built-in tools say what their sources say", "[recipe]") {
  const RecipeBook book;
  const auto application = book.application();
  REQUIRE(application);
  const auto range = [&](const char* name) {
    const Tool* tool = (*application)->tool(name);
    REQUIRE(tool != nullptr);
    return std::pair(tool->efficiency_range.low, tool->efficiency_range.high);
  };
  // EVIDENCE: transfer_efficiency_guides (read): HVLP 65 to 80 and 50 to 60; airless 50 to 60 and
  // 40 to 50; air-assisted airless 60 to 80; conventional cup gun 30
  CHECK(range("hvlp-gun") == std::pair(50.0, 80.0));
  CHECK(range("airless-gun") == std::pair(40.0, 60.0));
  CHECK(range("air-assisted-gun") == std::pair(60.0, 80.0));
  CHECK(range("conventional-gun") == std::pair(30.0, 30.0));
  // EVIDENCE: turbine_gun_tests (read): 60 to 70 large surfaces, 20 to 50 small ones
  CHECK(range("turbine-gun") == std::pair(60.0, 70.0));
  CHECK(*(*application)->tool("turbine-gun")->small_parts_percent >= 20.0);
  CHECK(*(*application)->tool("turbine-gun")->small_parts_percent <= 50.0);
}
