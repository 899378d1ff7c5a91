#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/time.h"
#include "base/units.h"
#include "base/zone.h"
#include "recipe/aftercare.h"

/// What a care card tells, apart from how it is printed: handover_sheet.h and handover_json.h write
/// it.
namespace coatwright {

/// The coats of one product in a finish.
struct CardCoats {
  std::string product;  ///< Recipe name.
  std::string title;
  int coats = 1;  ///< On the face that has the most.
  Time first;
  Time last;
  bool planned = false;  ///< Any of them is not on yet.
};

/// From when on a finish bears something, by calculation.
struct CardStage {
  std::optional<Time> at;            ///< None: the recipe does not say, or it is not in sight.
  std::string product;               ///< Title of the coat that is the last to be ready.
  Time since;                        ///< From when on that coat dries.
  Hours low = Hours::from_hours(0);  ///< At the reference atmosphere, for this coat's film.
  Hours high = Hours::from_hours(0);
  Hours needed = Hours::from_hours(0);  ///< At the card's confidence.
  std::string mechanism;                ///< In words; empty: the recipe does not say.
  std::string source;                   ///< Key of the range's source.
};

/// A finish, and the parts that have it.
struct CardFinish {
  std::vector<std::string> parts;   ///< Empty: the whole piece.
  std::string over;                 ///< Title of the finish that the piece came in with, or empty.
  std::vector<CardCoats> coats;     ///< Lowest first.
  std::vector<std::string> layers;  ///< On top; of two faces there may be two.
  CardStage light_use;
  CardStage full_use;

  [[nodiscard]] bool planned() const;
};

/// How it is known when the piece is handed over.
enum class HandoverMoment { kAsked, kLogged, kPlanned, kDue, kNow };

/// The air that a finish dries in after a moment at which the house takes the place of the shop.
struct CardAir {
  Time from;         ///< The first of the last coats.
  Time handed_over;  ///< From here on the house.
  HandoverMoment moment = HandoverMoment::kNow;
  Temperature coldest = Temperature::from_celsius(0);  ///< Of the shop, up to then.
  Temperature warmest = Temperature::from_celsius(0);
  RelativeHumidity driest = RelativeHumidity::from_fraction(0);
  RelativeHumidity dampest = RelativeHumidity::from_fraction(0);
  std::vector<AirOrigin> origins;  ///< What the shop's air rests on, the most trusted first.
  Temperature house = Temperature::from_celsius(0);
  RelativeHumidity house_humidity = RelativeHumidity::from_fraction(0);
  bool house_assumed = true;  ///< Nobody said what the house's air is.
};

struct HandoverCard {
  std::string piece;
  Time made_at;
  double confidence = 0.9;
  CardAir air;
  std::vector<CardFinish> finishes;
  Aftercare care;                    ///< All that may be said; what applies is chosen by layers.
  std::vector<std::string> remarks;  ///< For the maker: what of the log counts how.

  [[nodiscard]] bool planned() const;
};

/// An item of the card with the finishes that it is said of.
struct CardItem {
  const AftercareItem* item;
  std::vector<const CardFinish*> finishes;
  bool of_all = true;  ///< It is said of every finish of the card.
};

/// What the card says in a section, in the order of the recipe.
[[nodiscard]] std::vector<CardItem> items_of(const HandoverCard& card, AftercareSection section);

/// The first day that begins at or after a moment: a day is named only when all of it counts.
[[nodiscard]] date::local_days first_whole_day(Time at, const Zone& zone);

/// "top, base"; empty for the whole piece.
[[nodiscard]] std::string parts_text(const CardFinish& finish);

}  // namespace coatwright
