// The words that `touch` and `outcome` take, in their pages. Consistency check: the pages must not
// lag behind the program.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "drying/touch_test.h"
#include "recipe/defect_words.h"
#include "repository/repository_files.h"

namespace {

using Rows = std::vector<std::string>;

/// The rows of a page that begin with one of its words: "| `tacky` | tack-free | not yet".
Rows rows_of(const std::string& page) {
  const std::string text = repository::read(repository::root() / "docs/commands" / page);
  Rows rows;
  for (const std::string& line : repository::lines_of(text)) {
    if (line.starts_with("| `") && !line.starts_with("| `-")) {
      rows.push_back(line);
    }
  }
  return rows;
}

}  // namespace

TEST_CASE("The page of touch has every finding with its stage", "[repository]") {
  const Rows rows = rows_of("touch.md");
  REQUIRE(rows.size() == coatwright::touch_findings().size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const coatwright::TouchFinding& finding = coatwright::touch_findings()[i];
    INFO(rows[i]);
    CHECK(rows[i].starts_with(fmt::format("| `{}` | {} | {}: ",
                                          finding.words,
                                          name_of(finding.stage),
                                          finding.reached ? "reached" : "not yet")));
  }
}

TEST_CASE("The page of outcome has every defect", "[repository]") {
  const Rows rows = rows_of("outcome.md");
  REQUIRE(rows.size() == 1 + coatwright::defect_words().size());
  CHECK(rows.front().starts_with("| `good` | "));
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const coatwright::DefectWord& defect = coatwright::defect_words()[i - 1];
    CHECK(rows[i] == fmt::format("| `{}` | {} |", defect.word, defect.means));
  }
}
