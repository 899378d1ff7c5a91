#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/tables_reader.h"

/// Consistency checks over every recipe of the repository: files against each other and against the
/// list of sources. Whether the figures are right is recipe_facts_test.cpp's matter.

using namespace coatwright;
namespace fs = std::filesystem;

namespace {

const fs::path kRoot = COATWRIGHT_SOURCE_DIR;

std::string text_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  REQUIRE(stream.is_open());
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

template <class T>
T value_of(Result<T> result) {
  if (!result) {
    FAIL(result.error().text());
  }
  return std::move(*result);
}

/// All that a pattern's first group catches in a text.
std::set<std::string> caught(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::set<std::string> all;
  for (auto match = std::sregex_iterator(text.begin(), text.end(), regex);
       match != std::sregex_iterator();
       ++match) {
    all.insert((*match)[1].str());
  }
  return all;
}

std::string without_comment_lines(const std::string& text) {
  return std::regex_replace(text, std::regex("(^|\n)[ \t]*#[^\n]*"), "$1");
}

std::vector<fs::path> recipe_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(kRoot / "recipes")) {
    if (entry.path().extension() == ".toml") {
      files.push_back(entry.path());
    }
  }
  return files;
}

Compatibility all_pairs() {
  Compatibility all;
  for (const auto& entry : fs::directory_iterator(kRoot / "recipes/compatibility")) {
    all.merge(value_of(parse_compatibility(text_of(entry.path()), entry.path().string())));
  }
  return all;
}

bool only_never(const PairRule& rule) {
  return std::all_of(rule.intervals.begin(), rule.intervals.end(), [](const RecoatInterval& i) {
    return i.condition == RecoatCondition::kNever;
  });
}

/// Each coat of a schedule, one entry per coat.
std::vector<std::string> coats_of(const Schedule& schedule) {
  std::vector<std::string> coats;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == ScheduleStepKind::kCoat) {
      coats.insert(coats.end(), static_cast<std::size_t>(step.coats), step.product);
    }
  }
  return coats;
}

}  // namespace

TEST_CASE("Every recipe of the repository is built in and can be read", "[recipe]") {
  const RecipeBook book;
  std::size_t products = 0;
  std::size_t schedules = 0;
  for (const fs::path& path : recipe_files()) {
    CAPTURE(path.filename().string());
    const std::string name = path.stem().string();
    const std::string folder = path.parent_path().filename().string();
    if (folder == "products") {
      CHECK(value_of(book.product(name))->name == name);
      ++products;
    } else if (folder == "schedules") {
      CHECK(value_of(book.schedule(name))->name == name);
      ++schedules;
    } else {
      CHECK((folder == "recipes" || folder == "compatibility"));
    }
  }
  CHECK(products == book.product_names().size());
  CHECK(schedules == book.schedule_names().size());
  CHECK(products > 0);
  CHECK(schedules > 0);
  CHECK_FALSE(value_of(book.species_names()).empty());
  CHECK_FALSE(value_of(book.working_times())->empty());
  CHECK_FALSE(all_pairs().empty());
}

TEST_CASE("Every source key of every recipe is in the list of sources", "[recipe]") {
  const std::set<std::string> known =
      caught(text_of(kRoot / "docs/references.bib"), "@[A-Za-z]+\\s*\\{\\s*([^,\\s]+)\\s*,");
  for (const fs::path& path : recipe_files()) {
    const std::string text = without_comment_lines(text_of(path));
    const std::set<std::string> used = caught(text, "\\b[a-z_]*source\\s*=\\s*\"([^\"]*)\"");
    const bool is_schedule = path.parent_path().filename() == "schedules";  // taste, no figures
    CAPTURE(path.filename().string());
    CHECK((is_schedule || !used.empty()));
    for (const std::string& key : used) {
      CAPTURE(key);
      CHECK(known.contains(key));
    }
  }
}

TEST_CASE("Every product belongs to a layer that the compatibility table knows", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    CAPTURE(name);
    const std::string layer = value_of(book.product(name))->layer;
    CHECK(fs::exists(kRoot / "recipes/compatibility" / (layer + ".toml")));
  }
}

TEST_CASE("Every coat of a schedule may follow the one before", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.schedule_names()) {
    const std::vector<std::string> coats = coats_of(*value_of(book.schedule(name)));
    for (std::size_t i = 1; i < coats.size(); ++i) {
      CAPTURE(name, coats[i - 1], coats[i]);
      const Product* under = value_of(book.product(coats[i - 1]));
      const Product* over = value_of(book.product(coats[i]));
      CHECK_FALSE(only_never(value_of(book.pair(*under, *over))));
    }
  }
}

TEST_CASE("Every coat is put on by a method of its product", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.schedule_names()) {
    for (const ScheduleStep& step : value_of(book.schedule(name))->steps) {
      if (step.kind != ScheduleStepKind::kCoat) {
        continue;
      }
      CAPTURE(name, step.product, std::string(name_of(step.method)));
      const Product& product = *value_of(book.product(step.product));
      const std::vector<Method>& methods = product.methods;
      CHECK(std::find(methods.begin(), methods.end(), step.method) != methods.end());
      // A film of its own is a multiple of the product's reference film.
      CHECK((!step.wet_film || product.film.reference_wet));
    }
  }
}

TEST_CASE("Every operation that plans ask for has a working time", "[recipe]") {
  const RecipeBook book;
  const WorkingTimes& times = *value_of(book.working_times());
  for (const char* operation : {"sand-P80",
                                "sand-P100",
                                "sand-P120",
                                "sand-P150",
                                "sand-P180",
                                "sand-P220",
                                "sand-P240",
                                "sand-P320",
                                "sand-P400",
                                "abrade",
                                "clean",
                                "raise-grain",
                                "wipe-stain-apply",
                                "wipe-stain-off",
                                "wipe-oil-apply",
                                "wipe-oil-off",
                                "wipe-varnish",
                                "brush",
                                "brush-waterborne",
                                "pad",
                                "spray",
                                "gun-set-up",
                                "gun-clean-up",
                                "brush-clean",
                                "rags",
                                "flip",
                                "sample",
                                "mix"}) {
    CAPTURE(operation);
    CHECK(times.contains(operation));
  }
  for (const std::string& name : book.schedule_names()) {
    for (const ScheduleStep& step : value_of(book.schedule(name))->steps) {
      if (step.kind != ScheduleStepKind::kSand) {
        continue;
      }
      for (const std::string& grit : step.grits) {
        CAPTURE(name, grit);
        CHECK(times.contains("sand-" + grit));
      }
    }
  }
}

TEST_CASE("The format page describes every key that a recipe uses", "[recipe]") {
  const std::string page = text_of(kRoot / "recipes/README.md");
  for (const fs::path& path : recipe_files()) {
    const std::string text = without_comment_lines(text_of(path));
    for (const std::string& key : caught(text, "(?:^|[\n{,])[ \t]*\\[*([a-z_.0-9]+)(?:\\]| *=)")) {
      CAPTURE(path.filename().string(), key);
      CHECK((page.find("`" + key + "`") != std::string::npos ||
             page.find("[" + key + "]") != std::string::npos));
    }
  }
}
