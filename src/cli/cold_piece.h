#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "air/surface.h"
#include "cli/common.h"

/// The part of `air show` that tells when a piece brought in cold has a surface above the dew
/// point.
namespace coatwright {

/// The options, as typed; empty: not given.
struct ColdPieceOptions {
  std::string temperature;
  std::string since;
  std::string thickness;
  std::string species;
};

/// What is reckoned for such a piece.
struct ColdPieceAnswer {
  Slab slab;
  CarriedPiece piece;
  Time until;                 ///< The end of the span that was looked at.
  std::optional<Time> first;  ///< Nothing: no moment up to `until`.
};

/// Errors: kUsage, kOutOfRange and kTime naming the option; kUsage when the piece comes in after
/// `until`; kNotFound for an unknown species.
[[nodiscard]] Result<ColdPieceAnswer> reckon_cold_piece(const ColdPieceOptions& options,
                                                        const GlobalOptions& global,
                                                        const Session& session,
                                                        Time until);

/// The answer as a paragraph, which says "not before" and what it rests on.
[[nodiscard]] std::string cold_piece_as_text(const ColdPieceAnswer& answer, const Session& session);
[[nodiscard]] nlohmann::ordered_json cold_piece_as_json(const ColdPieceAnswer& answer,
                                                        const Session& session);

}  // namespace coatwright
