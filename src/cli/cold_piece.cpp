#include "cli/cold_piece.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "base/time_expression.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

// Source: [coating_conditions_guides], guides to painting steel.
constexpr auto kSpread = TemperatureDifference::from_kelvin(3.0);

Result<Slab> slab_of(const ColdPieceOptions& options, const GlobalOptions& global) {
  const auto thickness = parse_thickness(options.thickness);
  if (!thickness) {
    return pass_on(thickness.error(), "--thickness");
  }
  if (options.species.empty()) {
    return Slab{.thickness = *thickness};
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto species = book->species(options.species);
  if (!species) {
    return pass_on(species.error(), "--species");
  }
  return wooden_slab(*thickness, (*species)->density_kg_per_m3);
}

double minutes_of(std::chrono::seconds span) {
  return Hours::from_seconds(span).minutes();
}

}  // namespace

Result<ColdPieceAnswer> reckon_cold_piece(const ColdPieceOptions& options,
                                          const GlobalOptions& global,
                                          const Session& session,
                                          Time until) {
  const auto temperature = parse_temperature(options.temperature);
  if (!temperature) {
    return pass_on(temperature.error(), "--cold-piece");
  }
  const auto since = parse_time(options.since, session.now, session.zone, Direction::kBack);
  if (!since) {
    return pass_on(since.error(), "--since");
  }
  if (*since >= until) {
    return fail(ErrorCode::kUsage,
                fmt::format("--since: {} is not before {}, where the span that is shown ends; give "
                            "a later --to",
                            show_full(*since, session.zone),
                            show_full(until, session.zone)));
  }
  const auto slab = slab_of(options, global);
  if (!slab) {
    return pass_on(slab.error());
  }
  const auto air = session.air(*since, until);
  if (!air) {
    return pass_on(air.error());
  }
  const CarriedPiece piece = {*temperature, *since, slab->slowest_lag()};
  return ColdPieceAnswer{
      *slab, piece, until, first_moment_above_dew_point(*air, piece, kSpread, until)};
}

std::string cold_piece_as_text(const ColdPieceAnswer& answer, const Session& session) {
  const Slab& slab = answer.slab;
  const std::string spread = show_difference(kSpread, session.units);
  const std::string until = show_full(answer.until, session.zone);
  const std::string verdict =
      answer.first
          ? fmt::format(
                "Not before {}, by calculation only; measure. From then to {} its surface is "
                "reckoned to keep {} or more above the dew point.",
                show_full(*answer.first, session.zone),
                until,
                spread)
          : fmt::format(
                "Not before {}: up to then no moment is found from which its surface keeps "
                "{} above the dew point.",
                until,
                spread);
  return fmt::format(
      "A piece of {} that came in at {}, {}:\n{}{}",
      show_thickness(slab.thickness, session.units),
      show_temperature(answer.piece.temperature, session.units),
      show_full(answer.piece.since, session.zone),
      wrap(verdict, 2, 2),
      wrap(fmt::format("Reckoned for {:.0f} kg/m3 of wood with air on both faces; one that lies on "
                       "a bench counts with twice its thickness. It lags the air by {:.0f} min. "
                       "Biot number {:.2f}, {}. The product's label comes first.",
                       slab.density_kg_per_m3,
                       minutes_of(answer.piece.lag),
                       slab.biot_number(),
                       slab.is_lumped() ? "below 0.1: the piece is of one temperature"
                                        : "above 0.1: its inside holds the face back, which is "
                                          "counted in the lag"),
           2,
           2));
}

nlohmann::ordered_json cold_piece_as_json(const ColdPieceAnswer& answer, const Session& session) {
  const Slab& slab = answer.slab;
  nlohmann::ordered_json not_before;
  if (answer.first) {
    not_before = show_rfc3339(*answer.first, session.zone);
  }
  return {{"temp_c", rounded(answer.piece.temperature.celsius(), 2)},
          {"since", show_rfc3339(answer.piece.since, session.zone)},
          {"thickness_mm", rounded(slab.thickness.millimetres(), 1)},
          {"density_kg_per_m3", slab.density_kg_per_m3},
          {"lag_minutes", rounded(minutes_of(answer.piece.lag), 1)},
          {"biot_number", rounded(slab.biot_number(), 3)},
          {"spread_c", kSpread.kelvin()},
          {"not_before", not_before},
          {"until", show_rfc3339(answer.until, session.zone)}};
}

}  // namespace coatwright
