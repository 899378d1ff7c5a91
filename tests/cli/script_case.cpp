#include "cli/script_case.h"

#include <cstdio>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <sys/wait.h>

namespace coatwright {
namespace {

std::vector<std::string> lines_of(std::string_view text) {
  std::istringstream stream{std::string(text)};
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

bool starts_with(std::string_view line, std::string_view start) {
  return line.substr(0, start.size()) == start;
}

std::string header(const std::vector<std::string>& lines, std::size_t at, const std::string& key) {
  const std::string start = "# " + key + ": ";
  if (at >= lines.size() || !starts_with(lines[at], start) || lines[at].size() == start.size()) {
    throw std::runtime_error("line " + std::to_string(at + 1) + " must be '" + start + "...'");
  }
  return lines[at].substr(start.size());
}

/// Text for the shell as one word.
std::string quoted(const std::string& text) {
  return "'" + text + "'";
}

std::string shown(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += "  " + line + "\n";
  }
  return text;
}

/// Runs a command; the program's clock, zone and data folder are the case's own.
std::vector<std::string> run_command(const std::string& command,
                                     const ScriptCase& script,
                                     const std::filesystem::path& folder) {
  std::ofstream(folder / ".command.sh")
      << "unset COATWRIGHT_STORE\nexport TZ=UTC HOME=\"$PWD\" XDG_DATA_HOME=\"$PWD/data\"\n"
      << "coatwright() { " << quoted(COATWRIGHT_BINARY) << " --at-clock " << quoted(script.clock)
      << " \"$@\"; }\n"
      << command << "\n";
  const std::string call = "cd " + quoted(folder.string()) + " && /bin/sh .command.sh 2>&1";
  std::FILE* pipe = popen(call.c_str(), "r");
  if (pipe == nullptr) {
    throw std::runtime_error("no shell can be started");
  }
  std::string output;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) {
    output += static_cast<char>(c);
  }
  const int status = pclose(pipe);
  auto lines = lines_of(output);
  lines.push_back(WIFEXITED(status) ? "[exit " + std::to_string(WEXITSTATUS(status)) + "]"
                                    : "[killed by a signal]");
  return lines;
}

/// Reads "<<< name" up to ">>>". @return the line after it.
std::size_t read_file(const std::vector<std::string>& lines, std::size_t at, ScriptCase& into) {
  std::string& content = into.files[lines[at].substr(4)];
  for (++at; at < lines.size() && lines[at] != ">>>"; ++at) {
    content += lines[at] + "\n";
  }
  return at + 1;
}

/// Reads "$ command" up to "[exit N]". @return the line after it.
std::size_t read_step(const std::vector<std::string>& lines, std::size_t at, ScriptCase& into) {
  ScriptStep step{lines[at].substr(2), {}};
  const std::size_t first = at + 1;
  do {
    if (++at >= lines.size()) {
      throw std::runtime_error("line " + std::to_string(first) + ": no [exit N] ends the command");
    }
    step.expected.push_back(lines[at]);
  } while (!starts_with(lines[at], "[exit "));
  into.steps.push_back(std::move(step));
  return at + 1;
}

bool matches_from(const std::vector<std::string>& expected,
                  std::size_t e,
                  const std::vector<std::string>& lines,
                  std::size_t l) {
  if (e == expected.size()) {
    return l == lines.size();
  }
  if (expected[e] == "...") {
    for (std::size_t rest = l; rest <= lines.size(); ++rest) {
      if (matches_from(expected, e + 1, lines, rest)) {
        return true;
      }
    }
    return false;
  }
  return l < lines.size() && expected[e] == lines[l] && matches_from(expected, e + 1, lines, l + 1);
}

}  // namespace

ScriptCase read_script(std::string_view text) {
  const auto lines = lines_of(text);
  ScriptCase script;
  script.name = header(lines, 0, "name");
  script.why = header(lines, 1, "why");
  script.clock = header(lines, 2, "clock");
  for (std::size_t at = 3; at < lines.size();) {
    if (lines[at].empty()) {
      ++at;
    } else if (starts_with(lines[at], "<<< ")) {
      at = read_file(lines, at, script);
    } else if (starts_with(lines[at], "$ ")) {
      at = read_step(lines, at, script);
    } else {
      throw std::runtime_error("line " + std::to_string(at + 1) +
                               " is neither a file nor a command");
    }
  }
  return script;
}

bool matches(const std::vector<std::string>& expected, const std::vector<std::string>& lines) {
  return matches_from(expected, 0, lines, 0);
}

std::string run_script(const ScriptCase& script, const std::filesystem::path& folder) {
  for (const auto& [name, content] : script.files) {
    std::filesystem::create_directories((folder / name).parent_path());
    std::ofstream(folder / name, std::ios::binary) << content;
  }
  for (const ScriptStep& step : script.steps) {
    const auto lines = run_command(step.command, script, folder);
    if (!matches(step.expected, lines)) {
      return "$ " + step.command + "\nexpected\n" + shown(step.expected) + "but got\n" +
             shown(lines);
    }
  }
  return "";
}

}  // namespace coatwright
