#include <algorithm>
#include <fstream>
#include <iterator>

#include <catch2/catch.hpp>

#include "cli/script_case.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> script_files() {
  std::vector<fs::path> paths;
  for (const auto& entry :
       fs::recursive_directory_iterator(fs::path(COATWRIGHT_SOURCE_DIR) / "tests" / "cli")) {
    if (entry.path().extension() == ".test") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

ScriptCase read_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return read_script(std::string(std::istreambuf_iterator<char>(file), {}));
}

TEST_CASE("Every script gives what it says", "[cli]") {
  const auto paths = script_files();
  REQUIRE_FALSE(paths.empty());
  for (const fs::path& path : paths) {
    const ScriptCase script = read_file(path);
    const TemporaryFolder folder;
    INFO(path.string() << ": " << script.name);
    CHECK_FALSE(script.steps.empty());
    CHECK(run_script(script, folder.path()) == "");
  }
}

TEST_CASE("A script that does not give what it says is noticed", "[cli]") {
  const std::string heading = "# name: n\n# why: w\n# clock: 2027-03-05T16:00:00Z\n";
  const auto outcome = [&](const std::string& body) {
    const TemporaryFolder folder;
    return run_script(read_script(heading + body), folder.path());
  };
  CHECK(outcome("$ echo oil\noil\n[exit 0]\n") == "");
  CHECK(outcome("<<< a/b\nwax\n>>>\n$ cat a/b\nwax\n[exit 0]\n") == "");
  CHECK(outcome("$ echo oil; echo wax >&2; exit 3\noil\nwax\n[exit 3]\n") == "");
  CHECK(outcome("$ echo oil\nwax\n[exit 0]\n") != "");
  CHECK(outcome("$ echo oil\noil\n[exit 1]\n") != "");
  CHECK(outcome("$ echo oil; echo wax\noil\n[exit 0]\n") != "");
  CHECK_THROWS(read_script(heading + "$ echo oil\noil\n"));
  CHECK_THROWS(read_script(heading + "echo oil\n[exit 0]\n"));
  CHECK_THROWS(read_script("# name: n\n# why: w\n$ echo\n[exit 0]\n"));
}

TEST_CASE("Three points stand for any lines", "[cli]") {
  CHECK(matches({"a", "...", "d"}, {"a", "b", "c", "d"}));
  CHECK(matches({"a", "...", "d"}, {"a", "d"}));
  CHECK(matches({"..."}, {}));
  CHECK_FALSE(matches({"a", "...", "d"}, {"a", "b", "c"}));
  CHECK_FALSE(matches({"a", "...", "b", "d"}, {"a", "b", "c", "d"}));
}

}  // namespace
}  // namespace coatwright
