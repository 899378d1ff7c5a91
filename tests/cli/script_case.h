#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

/// Script tests. A case is a text file:
///
///     # name: A reading is echoed with its dew point
///     # why: the maker sees at once whether it was understood
///     # clock: 2027-03-05T16:00:00Z
///     <<< logger.csv
///     time,temp
///     >>>
///     $ coatwright air add 14C 62%
///     expected output and error output
///     [exit 0]
///
/// Commands run in a shell, one after the other, in a folder of their own. A line "..." stands for
/// any lines, none too.
namespace coatwright {

/// A command and what it must give.
struct ScriptStep {
  std::string command;
  std::vector<std::string> expected;  ///< The lines, "[exit N]" the last.
};

struct ScriptCase {
  std::string name;
  std::string why;
  std::string clock;
  std::map<std::string, std::string> files;
  std::vector<ScriptStep> steps;
};

/// Throws std::runtime_error with the line where a case is malformed.
[[nodiscard]] ScriptCase read_script(std::string_view text);

/// @return whether the lines are as expected.
[[nodiscard]] bool matches(const std::vector<std::string>& expected,
                           const std::vector<std::string>& lines);

/// Runs a case in a folder. @return what is different, or nothing.
[[nodiscard]] std::string run_script(const ScriptCase& script, const std::filesystem::path& folder);

}  // namespace coatwright
