#pragma once

#include <string>
#include <string_view>

#include "recipe/product.h"

/// What may come of a coat that was not in its window or limits, and what to do about it. Source
/// of all: common practice, no source, but where a comment names one.
namespace coatwright {

struct Advice {
  std::string may_happen;
  std::string first;  ///< While it is not yet on.
  std::string then;   ///< When it is on already.
};

/// A coat over one that was not ready for it.
[[nodiscard]] Advice advice_when_early(const Product& under, const Product& over);
/// A coat over one that has set too far to bond with it. @param abrade_grit empty where abrading
/// does not help.
[[nodiscard]] Advice advice_when_late(const Product& under, std::string_view abrade_grit);
/// A coat over what holds it only when it is abraded.
[[nodiscard]] Advice advice_when_unabraded(const Product& under);
/// A coat over what it must never go on. @param barrier a product that may go between; or empty.
[[nodiscard]] Advice advice_when_forbidden(const std::string& barrier);
/// A coat in air outside a limit. @param code of LimitBreach.
[[nodiscard]] Advice advice_outside(std::string_view code);

}  // namespace coatwright
