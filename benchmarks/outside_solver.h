#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// What another solver said of a model and data.
struct OutsideAnswer {
  bool found = false;
  bool proven = false;  ///< That it is the best, or that there is none.
  StartTimes schedule;  ///< In the unit of the data.
  std::int64_t lateness = 0;
  Tick end = 0;
  double seconds = 0.0;  ///< Of processor time, with the start of the solver.
  std::string text;      ///< All that it printed.
};

/// Calls a solver and reads "starts = [..]", "lateness = N" and "end = N".
/// @param command with its options, such as `minizinc --solver gecode --time-limit 20000`; model
/// and data are added to it.
[[nodiscard]] OutsideAnswer ask_outside(const std::string& command,
                                        const std::filesystem::path& model,
                                        const std::filesystem::path& data);

/// A folder of its own for data files, removed with all that is in it.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  /// Writes a file and says where it is.
  [[nodiscard]] std::filesystem::path write(const std::string& name, const std::string& text) const;

 private:
  std::filesystem::path folder_;
};

/// "name = [1, 2];" as a line of MiniZinc data, and "name = 1;".
[[nodiscard]] std::string list_line(const std::string& name, const std::vector<int>& values);
[[nodiscard]] std::string number_line(const std::string& name, std::int64_t value);
/// Rows of a matrix; `range` is its index sets, in the words of the model.
[[nodiscard]] std::string matrix_line(const std::string& name,
                                      const std::vector<std::vector<int>>& rows,
                                      const std::string& range);

}  // namespace coatwright
