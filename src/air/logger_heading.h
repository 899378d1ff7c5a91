#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "air/logger_cells.h"

namespace coatwright {

/// What the heading of a column says about it, from the words that loggers and weather services use
/// in English, German and French (common practice, no standard).
struct HeadingMeaning {
  bool date = false;
  bool clock = false;  ///< Together with date: a time stamp.
  bool temperature = false;
  bool humidity = false;
  bool fraction = false;            ///< Humidity runs from 0 to 1.
  CellUnit unit = CellUnit::kNone;  ///< kNone too when two units are named.

  [[nodiscard]] bool time() const { return date || clock; }
};

[[nodiscard]] HeadingMeaning meaning_of_heading(std::string_view heading);

/// The heading without words for units, to tell whether two columns hold the same thing.
[[nodiscard]] std::string heading_without_unit(std::string_view heading);

}  // namespace coatwright
