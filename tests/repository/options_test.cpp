// docs/commands/ against the program's own --help. A heading such as "## `coatwright air add`"
// begins a command; the rows "| `--option ...` |" below it are its options.
#include <array>
#include <cstdio>
#include <map>
#include <memory>
#include <regex>

#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

using Names = std::set<std::string>;

struct Command {
  Names options;
  Names subcommands;
};

/// What the program prints for "WORDS --help".
std::string help_of(const std::string& words) {
  const std::string call = "'" COATWRIGHT_BINARY "' " + words + " --help 2>&1";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(call.c_str(), "r"), pclose);
  std::string text;
  std::array<char, 4096> buffer{};
  while (pipe && fgets(buffer.data(), static_cast<int>(buffer.size()), pipe.get()) != nullptr) {
    text += buffer.data();
  }
  return text;
}

void add_option_names(const std::string& text, Names& names) {
  static const std::regex kOption("--([a-z][a-z-]*)");
  for (std::sregex_iterator name(text.begin(), text.end(), kOption), end; name != end; ++name) {
    if ((*name)[1] != "help") {
      names.insert((*name)[1]);
    }
  }
}

/// The name column of a help line: from its indent to the next run of two blanks.
std::string name_column(const std::string& line) {
  const auto begin = line.find_first_not_of(' ');
  return begin == std::string::npos ? "" : line.substr(begin, line.find("  ", begin) - begin);
}

Command read_help(const std::string& help) {
  Command command;
  bool in_subcommands = false;
  for (const std::string& line : repository::lines_of(help)) {
    if (!line.starts_with(' ')) {
      in_subcommands = in_subcommands ? !line.empty() : line.starts_with("Subcommands");
      continue;
    }
    const std::string name = name_column(line);
    const bool is_indented_text = line.starts_with("      ");
    if (in_subcommands && line.starts_with("  ") && !is_indented_text) {
      command.subcommands.insert(name);
    } else if (name.starts_with('-')) {
      add_option_names(name, command.options);
    }
  }
  return command;
}

/// The options of every command in a page, by the words after "coatwright" ("" for the program's
/// own).
std::map<std::string, Names> read_page(const std::string& text) {
  static const std::regex kHeading("^#+ `coatwright ?([a-z -]*)`.*$");
  std::map<std::string, Names> commands;
  auto current = commands.end();
  for (const std::string& line : repository::lines_of(text)) {
    std::smatch match;
    if (std::regex_match(line, match, kHeading)) {
      current = commands.try_emplace(match[1]).first;
    } else if (line.starts_with("| `-") && current != commands.end()) {
      add_option_names(line.substr(0, line.find('|', 2)), current->second);
    }
  }
  return commands;
}

std::map<std::string, Names> documented_commands() {
  std::map<std::string, Names> all;
  for (const auto& page : repository::files_below(repository::root() / "docs/commands", {".md"})) {
    all.merge(read_page(repository::read(page)));
  }
  return all;
}

}  // namespace

TEST_CASE("Options and commands are read from help and page", "[repository]") {
  const Command help = read_help(
      "Usage: x [OPTIONS] [SUBCOMMAND]\n\nOptions:\n  -h,--help       Print\n  --at TIME       Not "
      "--by\n\nSubcommands:\n  air             Shop\n                  air\n");
  CHECK(help.options == Names{"at"});
  CHECK(help.subcommands == Names{"air"});
  const auto page = read_page("## `coatwright air add`\n| `--at TIME` | not `--by` |\n");
  REQUIRE(page.contains("air add"));
  CHECK(page.at("air add") == Names{"at"});
}

TEST_CASE("The options in --help are those in docs/commands", "[repository]") {
  const auto documented = documented_commands();
  REQUIRE(documented.contains(""));
  for (const auto& [words, options] : documented) {
    INFO("coatwright " << words << " --help");
    CHECK(read_help(help_of(words)).options == options);
  }
}

TEST_CASE("Every command of the program has its part in docs/commands", "[repository]") {
  const auto documented = documented_commands();
  for (const auto& [words, options] : documented) {
    for (const std::string& name : read_help(help_of(words)).subcommands) {
      const std::string command = words.empty() ? name : words + " " + name;
      INFO("coatwright " << command);
      CHECK(documented.contains(command));
    }
  }
}
