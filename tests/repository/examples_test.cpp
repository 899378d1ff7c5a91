// Every example in the pages is run: a "$ coatwright ..." line inside a code block (or "$
// scripts/",
// "$ sed", "$ grep"), with the lines below it as the expected output. The examples of one page
// share a store that is empty at its beginning, and a folder for others, $FOLDER. With
// COATWRIGHT_UPDATE_PAGES=1 in the environment the pages are rewritten instead.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string_view>

#include <catch2/catch.hpp>
#include <unistd.h>

#include "repository/repository_files.h"

namespace {

/// One command of a page and the output that stands below it.
struct Example {
  std::string command;
  std::string expected;
  std::size_t output_begin;  ///< Line number of the output in the page, from 0.
  std::size_t output_end;    ///< One past its last line.
};

bool begins_example(const std::string& line) {
  constexpr std::array<std::string_view, 4> kRun = {
      "$ coatwright", "$ scripts/", "$ sed ", "$ grep "};
  return std::any_of(
      kRun.begin(), kRun.end(), [&](std::string_view begin) { return line.starts_with(begin); });
}

std::vector<Example> examples_of(const std::vector<std::string>& lines) {
  std::vector<Example> examples;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!begins_example(lines[i])) {
      continue;
    }
    Example example{lines[i].substr(2), "", 0, 0};
    while (example.command.ends_with('\\') && i + 1 < lines.size()) {
      example.command += "\n" + lines[++i];
    }
    example.output_begin = i + 1;
    while (i + 1 < lines.size() && lines[i + 1] != "```" && !begins_example(lines[i + 1])) {
      example.expected += lines[++i] + "\n";
    }
    example.output_end = i + 1;
    examples.push_back(example);
  }
  return examples;
}

/// A store of its own for one page, gone at the end of the scope.
class PageStore {
 public:
  PageStore()
      : folder_(std::filesystem::temp_directory_path() /
                ("coatwright-pages-" + std::to_string(getpid()))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  PageStore(const PageStore&) = delete;
  PageStore& operator=(const PageStore&) = delete;
  ~PageStore() { std::filesystem::remove_all(folder_); }

  /// What a shell in the repository's folder prints for a command.
  [[nodiscard]] std::string output_of(const std::string& command) const {
    const std::string script = "cd '" + repository::root().string() +
                               "'\ncoatwright() { '" COATWRIGHT_BINARY "' \"$@\"; }\n" +
                               "export TZ=UTC COATWRIGHT='" COATWRIGHT_BINARY "' FOLDER='" +
                               folder_.string() + "' COATWRIGHT_STORE='" + folder_.string() +
                               "/store.sqlite'\nexec 2>&1\n" + command;
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(script.c_str(), "r"), pclose);
    std::string text;
    std::array<char, 4096> buffer{};
    while (pipe && fgets(buffer.data(), static_cast<int>(buffer.size()), pipe.get()) != nullptr) {
      text += buffer.data();
    }
    return text;
  }

 private:
  std::filesystem::path folder_;
};

void check_page(const std::vector<Example>& examples) {
  const PageStore store;
  for (const Example& example : examples) {
    INFO("$ " << example.command);
    CHECK(store.output_of(example.command) == example.expected);
  }
}

void rewrite_page(const std::filesystem::path& page,
                  const std::vector<std::string>& lines,
                  const std::vector<Example>& examples) {
  const PageStore store;
  std::ostringstream text;
  std::size_t next = 0;
  for (const Example& example : examples) {
    for (; next < example.output_begin; ++next) {
      text << lines[next] << "\n";
    }
    text << store.output_of(example.command);
    next = example.output_end;
  }
  for (; next < lines.size(); ++next) {
    text << lines[next] << "\n";
  }
  std::ofstream(page, std::ios::binary) << text.str();
}

}  // namespace

TEST_CASE("An example is read with its continued command and its output", "[repository]") {
  const auto examples = examples_of(
      {"```", "$ coatwright a \\", "  b", "one", "$ coatwright c", "two", "", "```", "text"});
  REQUIRE(examples.size() == 2);
  CHECK(examples[0].command == "coatwright a \\\n  b");
  CHECK(examples[0].expected == "one\n");
  CHECK(examples[1].expected == "two\n\n");
}

TEST_CASE("Every example in the pages prints what the page shows", "[repository]") {
  auto pages = repository::files_below(repository::root() / "docs", {".md"});
  pages.push_back(repository::root() / "README.md");
  std::size_t count = 0;
  for (const auto& page : pages) {
    INFO(repository::relative(page));
    const auto lines = repository::lines_of(repository::read(page));
    const auto examples = examples_of(lines);
    count += examples.size();
    if (std::getenv("COATWRIGHT_UPDATE_PAGES") != nullptr) {
      rewrite_page(page, lines, examples);
    } else {
      check_page(examples);
    }
  }
  CHECK(count > 0);
}
