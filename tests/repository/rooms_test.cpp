// The arrow rule of DEVELOPERS.md: a room includes only itself and rooms below it.
#include <map>
#include <regex>

#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

using Rooms = std::set<std::string>;

/// What each room may include besides itself.
const std::map<std::string, Rooms>& allowed() {
  static const std::map<std::string, Rooms> kAllowed = {
      {"base", {}},
      {"air", {"base"}},
      {"drying", {"air", "base"}},
      {"recipe", {"drying", "air", "base"}},
      {"quantity", {"recipe", "drying", "air", "base"}},
      {"safety", {"quantity", "recipe", "drying", "air", "base"}},
      {"scheduling", {"base"}},
      {"plan", {"scheduling", "safety", "quantity", "recipe", "drying", "air", "base"}},
      {"store", {"plan", "scheduling", "safety", "quantity", "recipe", "drying", "air", "base"}},
      {"learn", {"plan", "scheduling", "safety", "quantity", "recipe", "drying", "air", "base"}},
      {"report", {"plan", "scheduling", "safety", "quantity", "recipe", "drying", "air", "base"}},
      {"print", {"report", "base"}},
      {"cli",
       {"report",
        "print",
        "store",
        "learn",
        "plan",
        "scheduling",
        "safety",
        "quantity",
        "recipe",
        "drying",
        "air",
        "base"}},
      {"main",
       {"cli",
        "print",
        "report",
        "store",
        "learn",
        "plan",
        "scheduling",
        "safety",
        "quantity",
        "recipe",
        "drying",
        "air",
        "base"}},
  };
  return kAllowed;
}

bool may_include(const std::string& room, const std::string& included) {
  const auto found = allowed().find(room);
  return found != allowed().end() && (room == included || found->second.contains(included));
}

/// The rooms that a source text includes from, "" for an include without a room.
std::vector<std::string> included_rooms(const std::string& text) {
  static const std::regex kInclude(R"re(^\s*#\s*include\s+"([^"]+)")re");
  std::vector<std::string> rooms;
  for (const std::string& line : repository::lines_of(text)) {
    std::smatch match;
    if (std::regex_search(line, match, kInclude)) {
      const std::string path = match[1];
      const auto slash = path.find('/');
      rooms.push_back(slash == std::string::npos ? "" : path.substr(0, slash));
    }
  }
  return rooms;
}

}  // namespace

TEST_CASE("An arrow that points up or sideways is noticed", "[repository]") {
  CHECK(included_rooms("#include <map>\n  #include \"plan/plan.h\"\n#include \"x.h\"\n") ==
        std::vector<std::string>{"plan", ""});
  CHECK_FALSE(may_include("air", "plan"));
  CHECK_FALSE(may_include("report", "store"));
  CHECK_FALSE(may_include("plan", "store"));
  CHECK_FALSE(may_include("safety", "plan"));
  CHECK_FALSE(may_include("unlisted", "base"));
  CHECK(may_include("store", "recipe"));
  CHECK(may_include("plan", "plan"));
}

TEST_CASE("Every include in src points down the rooms", "[repository]") {
  const std::filesystem::path src = repository::root() / "src";
  std::size_t arrows = 0;
  for (const auto& file : repository::files_below(src, {".h", ".cpp"})) {
    const std::string room = file.lexically_relative(src).begin()->string();
    for (const std::string& included : included_rooms(repository::read(file))) {
      INFO(repository::relative(file) << " includes from room '" << included << "'");
      CHECK(may_include(room, included));
      ++arrows;
    }
  }
  REQUIRE(arrows > 0);
}

TEST_CASE("Every folder of src is a room with its place in the order", "[repository]") {
  for (const auto& entry : std::filesystem::directory_iterator(repository::root() / "src")) {
    if (entry.is_directory()) {
      INFO(entry.path().filename());
      CHECK(allowed().contains(entry.path().filename().string()));
    }
  }
}

TEST_CASE("No two headers define a type of the same name", "[repository]") {
  // All rooms share one namespace: the linker would take two such types for one.
  static const std::regex kType(
      R"re(^(?:struct|class|enum class) ([A-Z]\w*)(?: final)?(?: :[^;]*)? \{)re");
  std::map<std::string, std::string> file_of;
  for (const auto& file : repository::files_below(repository::root() / "src", {".h"})) {
    for (const std::string& line : repository::lines_of(repository::read(file))) {
      std::smatch match;
      if (std::regex_search(line, match, kType)) {
        const auto [known, is_new] = file_of.emplace(match[1], repository::relative(file));
        INFO(match[1] << " in " << known->second << " and " << repository::relative(file));
        CHECK(is_new);
      }
    }
  }
  REQUIRE(file_of.size() > 100);
}
