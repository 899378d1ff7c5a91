#pragma once

#include "recipe/product.h"
#include "recipe/substance.h"
#include "recipe/toml_reader.h"

namespace coatwright {

/// Reads [vapour] of a product, once its film has been read; optional.
/// @param substances what may be named; null: any name, and its share points to no substance.
[[nodiscard]] std::optional<Vapour> read_vapour(TomlTable& root,
                                                const Film& film,
                                                const Substances* substances);

/// What a shop's own product that does not say it gives off: as what it was made from, but as much
/// as its own solids leave.
[[nodiscard]] Vapour vapour_made_from(Vapour of_class, const Film& own_film);

}  // namespace coatwright
