#include "report/plan_json.h"

#include <fstream>
#include <iterator>
#include <regex>
#include <set>

#include <nlohmann/json.hpp>

#include "page_checks.h"

using namespace coatwright;
using nlohmann::json;

namespace {

json json_of(const Plan& plan) {
  return json::parse(plan_as_json(plan, sample::zone()));
}

void collect_keys(const json& node, std::set<std::string>& keys) {
  if (!node.is_structured()) {
    return;
  }
  for (const auto& item : node.items()) {
    if (node.is_object()) {
      keys.insert(item.key());
    }
    collect_keys(item.value(), keys);
  }
}

void collect_strings(const json& node, std::vector<std::string>& strings) {
  if (node.is_string()) {
    strings.push_back(node.get<std::string>());
  }
  for (const auto& item : node.is_structured() ? node : json::array()) {
    collect_strings(item, strings);
  }
}

std::string format_page() {
  std::ifstream file(std::string(COATWRIGHT_SOURCE_DIR) + "/docs/plan-format.md");
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace

TEST_CASE("The JSON of every plan parses, whatever its texts hold", "[report]") {
  for (const auto& [name, plan] : sample::all_plans()) {
    INFO(name);
    const json parsed = json_of(plan);
    CHECK(parsed["format"] == "coatwright/plan/1");
    CHECK(parsed["steps"].size() == plan.steps.size());
    CHECK(plan_as_json(plan, sample::zone()).find("-0.0,") == std::string::npos);
  }
  Plan broken = sample::plan();
  broken.pieces.front().name = "not UTF-8: \xff";
  CHECK(json_of(broken)["pieces"][0]["name"] == "not UTF-8: \ufffd");
}

TEST_CASE("The plan's head is written as the format page says", "[report]") {
  const json plan = json_of(sample::plan());
  CHECK(plan["made_at"] == "2027-03-05T15:58:00-05:00");
  CHECK(plan["from"] == "2027-03-05T16:00:00-05:00");
  CHECK(plan["by"] == "2027-03-07T20:00:00-05:00");
  CHECK(plan["time_zone"] == "America/New_York");
  CHECK(plan["confidence"] == 0.9);
  CHECK(plan["complete"] == true);
  CHECK(plan["fits"] == true);
  CHECK(plan["finish"] == "2027-03-07T19:05:00-05:00");
  CHECK(plan["slack_minutes"] == 55);
  CHECK(plan["chance"] == 0.87);
  CHECK(plan["bound"] == "2027-03-07T18:40:00-05:00");
  CHECK(plan["gap_minutes"] == 25);
  CHECK(plan["search"] == json{{"seed", 7}, {"nodes", 1234}, {"stopped_by", "budget"}});
  CHECK(plan["shop"]["people"] == 2);
  CHECK(plan["shop"]["spray_places"] == 1);
  CHECK(plan["shop"]["rack_places"] == 0);
  CHECK(plan["shop"]["hours"][1] ==
        json{{"start", "2027-03-06T09:00:00-05:00"}, {"end", "2027-03-06T12:00:00-05:00"}});
}

TEST_CASE("What a plan does not have is null", "[report]") {
  const json plan = json_of(sample::incomplete_plan());
  CHECK(plan["fits"] == false);
  for (const auto* key : {"finish", "slack_minutes", "bound", "gap_minutes"}) {
    INFO(key);
    CHECK(plan.at(key).is_null());
  }
  CHECK(json_of(sample::late_plan())["slack_minutes"] == -(4 * 24 + 3) * 60);
}

TEST_CASE("Pieces and air are written with their units", "[report]") {
  const json plan = json_of(sample::plan());
  CHECK(plan["pieces"][0] == json{{"name", "Sideboard"},
                                  {"species", "black-walnut"},
                                  {"schedule", "stain-and-lacquer"},
                                  {"area_m2", 1.9},
                                  {"faces", 2},
                                  {"on_points", false},
                                  {"parts", {"top"}},
                                  {"due", "2027-03-07T20:00:00-05:00"},
                                  {"weight", 1.0},
                                  {"finish", "2027-03-07T19:05:00-05:00"},
                                  {"late_minutes", 0.0},
                                  {"chance", nullptr},
                                  {"critical", json::array()}});
  REQUIRE(plan["air"].size() == 6);
  CHECK(plan["air"][3]["at"] == "2027-03-06T15:00:00-05:00");
  CHECK(plan["air"][3]["temp_c"] == 19.0);
  // Consistency check: the corner was made from 48 % by the inverse function.
  CHECK(plan["air"][3]["rh_percent"].get<double>() == Approx(48.0).margin(1e-5));
  CHECK(plan["air"][3]["from"] == "usual day");
}

TEST_CASE("A step is written with its air, its uses and its waits", "[report]") {
  const json step = json_of(sample::plan())["steps"][4];
  CHECK(step["id"] == 6);
  CHECK(step["kind"] == "apply");
  CHECK(step["face"] == "front");
  CHECK(step["product"] == "waterborne-sealer");
  CHECK(step["coat"] == 2);
  CHECK(step["start"] == "2027-03-06T17:30:00-05:00");
  CHECK(step["people"] == 2);
  CHECK(step["uses"] == json{{"spray_places", 1}, {"rack_places", 0}, {"benches", 0}});
  CHECK(step["chance"] == 0.84);
  CHECK(step["cautions"].size() == 2);
  CHECK(step["air"]["surface_c"] == 15.5);
  // The dew point of 16 C and 60 % is about 8.2 C by common dew-point tables, from memory.
  CHECK(step["air"]["dew_point_c"].get<double>() == Approx(8.2).margin(0.1));
  CHECK(step["air"]["spread_c"].get<double>() ==
        Approx(15.5 - step["air"]["dew_point_c"].get<double>()).margin(1e-5));
  CHECK(step["after"][0] == json{{"step", 3},
                                 {"stage", "recoat"},
                                 {"product", "oil-wiping-stain"},
                                 {"mechanism", "oxidation, 50 kJ/mol"},
                                 {"since", "2027-03-05T18:00:00-05:00"},
                                 {"opens_at", "2027-03-06T17:29:00-05:00"},
                                 {"needed_hours", 24.0},
                                 {"earned_hours", 24.2},
                                 {"closes_at", "2027-03-07T09:00:00-05:00"},
                                 {"closing", nullptr},
                                 {"closing_since", nullptr},
                                 {"condition", "none"},
                                 {"chance", 0.88},
                                 {"gate_c", 10.0},
                                 {"phases",
                                  {{{"mechanism", "oxidation"},
                                    {"solvent", nullptr},
                                    {"antoine", nullptr},
                                    {"activation_kj_per_mol", 50.0},
                                    {"low_hours", 12.0},
                                    {"high_hours", 24.0},
                                    {"needed_hours", 24.0}}}},
                                 {"source", "trade-finishing-web"}});
}

TEST_CASE("A wait that never closes has null for its closing and its gate", "[report]") {
  const json wait = json_of(sample::plan())["steps"][5]["after"][0];
  CHECK(wait.at("closes_at").is_null());
  CHECK(wait.at("gate_c").is_null());
  CHECK(wait["phases"].size() == 2);
}

TEST_CASE("Milestones, quantities, warnings, hold-ups and rates are written", "[report]") {
  const json plan = json_of(sample::plan());
  // The offset is that of summer time, which begins on 14 March 2027 in New York.
  CHECK(plan["milestones"][0]["at"] == "2027-03-16T08:00:00-04:00");
  CHECK(plan["milestones"][0]["stage"] == "light-use");
  CHECK(plan["quantities"][0]["litres"] == 0.35);
  CHECK(plan["quantities"][0]["mixes"] == 0);
  CHECK(plan["warnings"][0]["code"] == "no-usual-day");
  CHECK(plan["warnings"][0]["step"] == 6);
  CHECK(plan["hold_ups"][1] == json{{"text", "the shop is closed"}, {"minutes", 540.0}});
  const json rate = plan["rates"][1];
  CHECK(rate["mechanism"] == "evaporation");
  CHECK(rate["solvent"] == "n-butyl acetate");
  CHECK(rate["antoine"] ==
        json{{"a", 9.33785}, {"b", 1458.032}, {"c", -61.605}, {"source", "perry_dippr"}});
  CHECK(rate["film_factor"] == 0.75);
  CHECK(rate.at("gate_c").is_null());
  CHECK(plan["rates"][0]["gate_c"] == 10.0);
  CHECK(plan["rates"][0]["activation_kj_per_mol"] == 50.0);
}

TEST_CASE("Every time is a date-time with an offset", "[report]") {
  // EVIDENCE: rfc_3339 section 5.6, date-time
  const std::regex date_time(R"(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d))");
  const std::regex begins_as_date(R"(\d{4}-\d\d-\d\d.*)");
  std::vector<std::string> strings;
  collect_strings(json_of(sample::plan()), strings);
  std::size_t times = 0;
  for (const std::string& text : strings) {
    if (std::regex_match(text, begins_as_date)) {
      INFO(text);
      CHECK(std::regex_match(text, date_time));
      ++times;
    }
  }
  CHECK(times > 40);
}

TEST_CASE("The format page documents every key", "[report]") {
  const std::string page = format_page();
  REQUIRE_FALSE(page.empty());
  std::set<std::string> keys;
  for (const auto& [name, plan] : sample::all_plans()) {
    collect_keys(json_of(plan), keys);
  }
  CHECK(keys.size() > 80);
  for (const std::string& key : keys) {
    INFO("docs/plan-format.md should name `" << key << "`");
    CHECK(page.find("`" + key + "`") != std::string::npos);
  }
}

TEST_CASE("The format page names every kind of step", "[report]") {
  const std::string page = format_page();
  for (int kind = 0; kind <= static_cast<int>(StepKind::kDeliver); ++kind) {
    const std::string name(name_of(static_cast<StepKind>(kind)));
    INFO(name);
    CHECK(page.find("`" + name + "`") != std::string::npos);
  }
}
