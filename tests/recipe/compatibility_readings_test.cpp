// The compatibility files against two lists that may lie beside the repository.
#include <algorithm>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/compatibility_files.h"
#include "recipe/recipe_book.h"
#include "recipe/reference_table.h"

namespace coatwright {
namespace {

using test::entry_of;
using test::keeps_apart;
using test::Layer;
using test::layers;
using test::text_of;
using test::value_of;

/// From the mildest verdict to the strictest.
const std::vector<std::string>& by_strictness() {
  static const std::vector<std::string> kWords = {
      "ok", "ok_within_window", "abrade_first", "full_cure_first", "needs_barrier", "never"};
  return kWords;
}

std::size_t strictness(const std::string& word) {
  const auto found = std::find(by_strictness().begin(), by_strictness().end(), word);
  REQUIRE(found != by_strictness().end());
  return static_cast<std::size_t>(found - by_strictness().begin());
}

PairVerdict verdict_of_word(const std::string& word) {
  constexpr PairVerdict kVerdicts[] = {PairVerdict::kOk,
                                       PairVerdict::kWithinWindow,
                                       PairVerdict::kAbradeFirst,
                                       PairVerdict::kFullCureFirst,
                                       PairVerdict::kBarrierFirst,
                                       PairVerdict::kNever};
  return kVerdicts[strictness(word)];
}

/// What the optional lists say of a pair.
struct Reading {
  std::string first;
  std::string second;  ///< Of the list made independently, where it differs; else empty.
  std::optional<double> wait_hours;

  [[nodiscard]] const std::string& stricter() const {
    return !second.empty() && strictness(second) > strictness(first) ? second : first;
  }
};

using Readings = std::map<std::pair<std::string, std::string>, Reading>;

/// The lines of a table, each by the names of its first line.
std::vector<std::map<std::string, std::string>> rows_of(const std::string& text) {
  std::vector<std::map<std::string, std::string>> rows;
  std::vector<std::string> names;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> cells = test::quoted_cells_of(line);
    if (names.empty()) {
      names = cells;
      continue;
    }
    auto& row = rows.emplace_back();
    for (std::size_t i = 0; i < std::min(names.size(), cells.size()); ++i) {
      row[names[i]] = cells[i];
    }
  }
  return rows;
}

/// By our names of the layers, those that we have; empty where the lists do not lie beside the
/// repository.
Readings readings() {
  const std::string folder = COATWRIGHT_SOURCE_DIR "/../shared/references/";
  std::map<std::string, std::string> ours;
  for (const Layer& layer : layers()) {
    ours[layer.listed_as] = layer.name;
  }
  Readings all;
  for (auto& row : rows_of(text_of(folder + "surface_compatibility.csv"))) {
    if (row["under"] == row["over"] || !ours.contains(row["under"])) {
      continue;  // bare wood, or a layer over itself
    }
    Reading& reading = all[{ours.at(row["under"]), ours.at(row["over"])}];
    reading.first = row["verdict"];
    if (!row["wait_min_h"].empty()) {
      reading.wait_hours = std::stod(row["wait_min_h"]);
    }
  }
  for (auto& row : rows_of(text_of(folder + "surface_compatibility_disagree.csv"))) {
    const auto found = all.find({ours[row["under"]], ours[row["over"]]});
    if (found != all.end() && row["verdict_second"] != found->second.first) {
      found->second.second = row["verdict_second"];
    }
  }
  if (all.empty()) {
    WARN("the lists of readings are not there: nothing compared");
  }
  return all;
}

}  // namespace

TEST_CASE("Each verdict is the stricter of two readings, and says where they differ", "[recipe]") {
  // EVIDENCE: trade_finishing_web two lists of what goes over what, made independently of each
  // other and of the program
  for (const auto& [names, reading] : readings()) {
    CAPTURE(names.first, names.second, reading.first, reading.second);
    const PairRule& rule = entry_of(names.first, names.second).rule;
    CHECK(std::string(name_of(rule.verdict)) ==
          std::string(name_of(verdict_of_word(reading.stricter()))));
    CHECK((reading.second.empty() || !rule.dissent.empty()));
  }
}

TEST_CASE("No coat goes over another sooner than the published wait", "[recipe]") {
  // EVIDENCE: trade_finishing_web the shortest wait that the list has for a pair; planned with the
  // high end of the opening
  const RecipeBook book;
  const Readings all = readings();
  for (const std::string& name : book.product_names()) {
    const Product& under = *value_of(book.product(name));
    for (const auto& [names, reading] : all) {
      // The list has one wait for all dyes, that of dye in water; dye in alcohol dries sooner.
      if (names.first != under.layer || under.layer == "dye-stain" || !reading.wait_hours) {
        continue;
      }
      const PairEntry& entry = entry_of(under.layer, names.second);
      if (keeps_apart(entry.rule.verdict)) {
        continue;
      }
      CAPTURE(name, names.second, *reading.wait_hours);
      for (const IntervalHours& hours : entry.intervals) {
        const RecoatInterval interval =
            value_of(with_laws(hours, under.name, under.stages, under.abrade_grit));
        CHECK(interval.opens.whole().high().hours() >= *reading.wait_hours);
      }
    }
  }
}

}  // namespace coatwright
