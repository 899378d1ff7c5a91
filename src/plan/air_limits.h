#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "recipe/glue.h"
#include "recipe/product.h"

namespace coatwright {

/// A rule of the air at application that is not kept. Those that bar a coat: "temperature-min",
/// "film-formation", "humidity-max", "dew-point-spread". Those that are cautions:
/// "temperature-max", "humidity-min", "blush", "outgassing".
struct LimitBreach {
  Time at;
  std::string code;
  std::string text;  ///< "12.1 C is below the 16 C at which ... may go on"
  std::string source;
};

/// "18.0 C (64 F)": both units stand in the texts of a plan, which does not know the reader's.
[[nodiscard]] std::string in_both_units(Temperature value);

/// @return the first moment at which the air is colder or warmer than a glue sets in, looked for
/// every five minutes from when it is spread until its clamps come off; nothing: the air is within.
[[nodiscard]] std::optional<LimitBreach> glue_breach(const AirRecord& air,
                                                     const Glue& glue,
                                                     Time from,
                                                     Time to);

/// The air's shortfalls against a product's limits. Below its minimum temperature, above its
/// maximum humidity, too near the dew point or below its film-formation temperature a coat is not
/// planned; what is only unfavourable (too warm, too dry, blush) is a caution.
class AirLimits {
 public:
  AirLimits(const AirRecord& air, const Product& product) : air_(air), product_(product) {}

  /// @return the breach at one moment, or nothing.
  [[nodiscard]] std::optional<LimitBreach> breach_at(Time at) const;
  /// @return the first breach from `from` to `to`, looked for every five minutes.
  [[nodiscard]] std::optional<LimitBreach> first_breach(Time from, Time to) const;
  /// @return the first moment from `from` on without a breach, or nothing up to `latest`.
  [[nodiscard]] std::optional<Time> next_kept(Time from, Time latest) const;
  /// What is only unfavourable for a coat that goes on at `from` and sets by `to`: each rule's
  /// first breach, its text a sentence.
  [[nodiscard]] std::vector<LimitBreach> cautions(Time from, Time to) const;

 private:
  [[nodiscard]] std::optional<LimitBreach> outgassing(Time from) const;

  const AirRecord& air_;
  const Product& product_;
};

}  // namespace coatwright
