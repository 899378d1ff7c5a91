#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace coatwright {

/// Reads a span of time: "5s", "2min", "1h". @param option named in errors.
/// Errors: kUsage when it cannot be read; kOutOfRange unless above 0 and at most a day.
[[nodiscard]] Result<std::chrono::milliseconds> parse_span(const std::string& option,
                                                           const std::string& text);

/// A search that may take long: while it lives, the first Ctrl-C or the end of its time asks the
/// search to end with the best so far, a second Ctrl-C ends the program, and how far it is goes to
/// standard error where that is a terminal and it takes longer than a second. One at a time.
class LongSearch {
 public:
  /// @param at_most none: only Ctrl-C ends it early.
  explicit LongSearch(std::optional<std::chrono::milliseconds> at_most);
  ~LongSearch();
  LongSearch(const LongSearch&) = delete;
  LongSearch& operator=(const LongSearch&) = delete;

  [[nodiscard]] bool is_to_stop() const;
  /// Shows a line in place of the one before, a few times a second at most.
  void tell(std::string_view line);

 private:
  using Clock = std::chrono::steady_clock;

  Clock::time_point begun_;
  std::optional<Clock::time_point> deadline_;
  Clock::time_point told_;
  bool is_watched_;
  std::size_t shown_ = 0;  ///< Columns of the line that stands on the terminal.
};

}  // namespace coatwright
