#pragma once

#include <optional>
#include <string>

#include "recipe/recipe_book.h"
#include "store/store.h"

/// How long a can keeps: from its product's file, months of 30 days.
namespace coatwright {

/// Until when a can is to be used, and why then.
struct UseBy {
  Time at;
  std::string source;
  std::string why;  ///< "6 months once opened"
};

/// The earlier of its time once opened and its time from when it was made.
/// @return nothing where the product's file says neither.
[[nodiscard]] std::optional<UseBy> use_by(const Can& can, const Product& product);

/// What to do with a can that is past its time. Source: common practice.
inline constexpr std::string_view kTestDrop =
    "Try a drop on glass before it goes on a piece: it must dry hard overnight. One that stays "
    "tacky, and a can that has thickened, gelled or skinned, is not used on work.";

/// A caution on the cans of a product that is about to be used: that the can of this batch, or
/// where none is named every open can of it, is past its time; empty: no such thing is known.
[[nodiscard]] Result<std::string> caution_on_cans(const Store& store,
                                                  const Product& product,
                                                  const std::string& batch,
                                                  Time now);

}  // namespace coatwright
