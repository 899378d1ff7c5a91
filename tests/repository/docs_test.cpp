// The pages keep what they promise: every formula is founded and checked, every link leads
// somewhere.
#include <regex>

#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

/// One "### ..." part of docs/formulas.md.
struct FormulaPart {
  std::string heading;
  std::vector<std::string> keys;                            ///< Of its "Source:" lines.
  std::vector<std::pair<std::string, std::string>> checks;  ///< Test file and the words in it.
};

void read_line(const std::string& line, FormulaPart& part) {
  static const std::regex kKey(R"(\[([a-z0-9_-]+)\])");
  static const std::regex kCheck(
      R"(^Checked by: `([^`]+)`, (EVIDENCE: .+|test ".+"|consistency check)$)");
  if (line.starts_with("Source:")) {
    for (std::sregex_iterator key(line.begin(), line.end(), kKey), end; key != end; ++key) {
      part.keys.push_back((*key)[1]);
    }
  }
  std::smatch match;
  if (std::regex_match(line, match, kCheck)) {
    part.checks.emplace_back(match[1], match[2]);
  }
}

std::vector<FormulaPart> formula_parts(const std::string& text) {
  std::vector<FormulaPart> parts;
  for (const std::string& line : repository::lines_of(text)) {
    if (line.starts_with("### ")) {
      parts.push_back({line.substr(4), {}, {}});
    } else if (!parts.empty()) {
      read_line(line, parts.back());
    }
  }
  return parts;
}

/// What a test file must hold for the words of a "Checked by" line.
std::string text_to_find(const std::string& words) {
  if (words == "consistency check") {
    return words.substr(1);  // "Consistency check" at a comment's start
  }
  return words.starts_with("test ") ? "TEST_CASE(" + words.substr(5) : words;
}

bool is_known_source(const std::string& key, const std::set<std::string>& keys) {
  return key == "judgement" || keys.contains(key);
}

/// The source keys of a code text: "EVIDENCE: key ..." and every "[key]" on a line with "Source:".
/// A plain word after EVIDENCE ("definition of ...") is prose, not a key: keys have a digit or a
/// joint.
std::set<std::string> keys_named(const std::string& text) {
  static const std::regex kEvidence(R"(EVIDENCE: \[?([a-z]+(?:[0-9_-][a-z0-9]*)+))");
  static const std::regex kBracketed(R"(\[([a-z][a-z0-9_-]+)\])");
  std::set<std::string> keys;
  for (const std::string& line : repository::lines_of(text)) {
    const bool is_source = line.find("Source:") != std::string::npos;
    const std::regex& pattern = is_source ? kBracketed : kEvidence;
    for (std::sregex_iterator key(line.begin(), line.end(), pattern), end; key != end; ++key) {
      keys.insert((*key)[1]);
    }
  }
  return keys;
}

std::vector<std::filesystem::path> pages() {
  auto pages = repository::files_below(repository::root() / "docs", {".md"});
  pages.push_back(repository::root() / "README.md");
  pages.push_back(repository::root() / "DEVELOPERS.md");
  pages.push_back(repository::root() / "recipes/README.md");
  return pages;
}

}  // namespace

TEST_CASE("A formula's source and check are read from its part of the page", "[repository]") {
  const auto parts = formula_parts(
      "### Dew point\nSource: [a_1] eq. 2, [b]\nChecked by: `tests/x.cpp`, EVIDENCE: a_1 table "
      "3\n");
  REQUIRE(parts.size() == 1);
  CHECK(parts[0].keys == std::vector<std::string>{"a_1", "b"});
  REQUIRE(parts[0].checks.size() == 1);
  CHECK(parts[0].checks[0].second == "EVIDENCE: a_1 table 3");
}

TEST_CASE("Every formula names a source that the list of references has", "[repository]") {
  const std::set<std::string> keys = repository::reference_keys();
  REQUIRE_FALSE(keys.empty());
  const auto parts = formula_parts(repository::read(repository::root() / "docs/formulas.md"));
  REQUIRE_FALSE(parts.empty());
  for (const FormulaPart& part : parts) {
    INFO("docs/formulas.md: " << part.heading);
    CHECK_FALSE(part.keys.empty());
    for (const std::string& key : part.keys) {
      INFO("source key " << key);
      CHECK(is_known_source(key, keys));
    }
  }
}

TEST_CASE("Every formula has a check in a test", "[repository]") {
  for (const FormulaPart& part :
       formula_parts(repository::read(repository::root() / "docs/formulas.md"))) {
    INFO("docs/formulas.md: " << part.heading);
    CHECK_FALSE(part.checks.empty());
    for (const auto& [file, words] : part.checks) {
      INFO(file << " should hold: " << words);
      const std::string text = repository::read(repository::root() / file);
      CHECK(text.find(text_to_find(words)) != std::string::npos);
    }
  }
}

TEST_CASE("Every source key in the code and its tests is in the list of references",
          "[repository]") {
  const std::set<std::string> keys = repository::reference_keys();
  std::size_t checked = 0;
  for (const auto& folder : {"src", "tests"}) {
    for (const auto& file : repository::files_below(repository::root() / folder, {".h", ".cpp"})) {
      if (file.filename() == "docs_test.cpp") {
        continue;  // its examples are not sources
      }
      for (const std::string& key : keys_named(repository::read(file))) {
        INFO(repository::relative(file) << ": source key " << key);
        CHECK(is_known_source(key, keys));
        ++checked;
      }
    }
  }
  REQUIRE(checked > 0);
}

TEST_CASE("Every link in the pages leads to a file", "[repository]") {
  static const std::regex kLink(R"(\]\(([^)#\s]+)(#[^)]*)?\))");
  std::size_t links = 0;
  for (const auto& page : pages()) {
    const std::string text = repository::read(page);
    for (std::sregex_iterator link(text.begin(), text.end(), kLink), end; link != end; ++link) {
      const std::string target = (*link)[1];
      if (target.find("://") == std::string::npos) {
        INFO(repository::relative(page) << " links to " << target);
        CHECK(std::filesystem::exists(page.parent_path() / target));
        ++links;
      }
    }
  }
  REQUIRE(links > 0);
}

TEST_CASE("The first page stays short", "[repository]") {
  const auto lines = repository::lines_of(repository::read(repository::root() / "README.md"));
  CHECK(lines.size() > 20);
  CHECK(lines.size() < 200);
}
