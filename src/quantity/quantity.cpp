#include "quantity/quantity.h"

#include <algorithm>
#include <map>

namespace coatwright {
namespace {

constexpr double kSquareMetresPerLitreAndMicrometre = 1000.0;

constexpr Hours kLeastUsable = Hours::from_minutes(1.0);  // judgement: nothing is put on in less

/// Of what is used, what stays on the wood: 0 .. 1.
double efficiency_of(const CoatUse& coat) {
  const double percent = coat.small_parts && coat.tool->small_parts_percent
                             ? *coat.tool->small_parts_percent
                             : coat.tool->efficiency_percent;
  return percent / 100.0;
}

std::optional<FilmThickness> film_to_reckon_with(const CoatUse& coat) {
  if (coat.wet_film) {
    return coat.wet_film;
  }
  const auto& reference = coat.product->film.reference_wet;
  const bool wiped = coat.tool->method == Method::kWipe;
  return reference && !wiped ? std::optional(reference->value) : std::nullopt;
}

/// Adds a coat to a group that is reckoned alike, or to a new one.
void add_to_groups(const CoatUse& coat, std::vector<CoatGroup>& groups) {
  const CoverRate rate = cover_rate(coat);
  const Volume used = Volume::from_litres(coat.area.square_metres() / rate.m2_per_l);
  const auto alike = std::find_if(groups.begin(), groups.end(), [&](const CoatGroup& group) {
    return group.piece == coat.piece && group.tool == coat.tool && group.area == coat.area &&
           group.rate == rate;
  });
  if (alike == groups.end()) {
    groups.push_back({coat.piece, coat.tool, 1, coat.area, rate, used});
    return;
  }
  ++alike->coats;
  alike->used = Volume::from_litres(alike->used.litres() + used.litres());
}

/// Thinner over product as supplied; 0 where it is not thinned, or its solids are not known.
double thinner_ratio_of(const CoatUse& coat) {
  const auto& solids = coat.product->film.solids;
  if (!coat.thinning || !solids) {
    return 0.0;
  }
  const double middle = (solids->value.low + solids->value.high) / 200.0;
  return thinner_ratio(middle, coat.thinning->share);
}

std::vector<MixShare> shares_of(const Product& product, Volume whole) {
  std::vector<MixShare> shares;
  if (!product.mix) {
    return shares;
  }
  double sum = 0.0;
  for (const Mix::Part& part : product.mix->parts) {
    sum += part.parts;
  }
  for (const Mix::Part& part : product.mix->parts) {
    const double share = part.parts / sum;
    shares.push_back({part.name, part.parts, share, Volume::from_litres(share * whole.litres())});
  }
  return shares;
}

/// Adds up the coats of one product.
class ProductSum {
 public:
  ProductSum(const Product& product, double waste_percent, const BatchAir& air) {
    sum_.product = &product;
    sum_.waste_percent = waste_percent;
    if (product.mix) {
      sum_.batches.pot_life = pot_life_in(*product.mix, air);
    }
    if (sum_.batches.pot_life) {
      sum_.batches.usable = usable_life(*sum_.batches.pot_life, *product.mix);
      sum_.batches.too_short = *sum_.batches.usable < kLeastUsable;
    }
  }

  void add(const CoatUse& coat) {
    add_to_groups(coat, sum_.groups);
    const double used = coat.area.square_metres() / cover_rate(coat).m2_per_l;
    used_ += used;
    const double ratio = thinner_ratio_of(coat);
    thinner_ += used * ratio / (1.0 + ratio);
    if (ratio > 0.0) {
      sum_.thinner_name = std::string(coat.thinning->thinner.solvent);
    }
    const int number = ++coats_on_[coat.piece];
    if (coat.product->mix && !sum_.batches.too_short) {
      add_batches(coat, number);
    }
  }

  ProductAmount done() {
    sum_.used = Volume::from_litres(used_);
    sum_.amount = Volume::from_litres(used_ * with_waste());
    sum_.thinner = Volume::from_litres(thinner_ * with_waste());
    sum_.supplied = Volume::from_litres(sum_.amount.litres() - sum_.thinner.litres());
    sum_.mix = shares_of(*sum_.product, sum_.supplied);
    return std::move(sum_);
  }

 private:
  [[nodiscard]] double with_waste() const { return 1.0 + sum_.waste_percent / 100.0; }

  void add_batches(const CoatUse& coat, int number) {
    const double litres_per_m2 = with_waste() / cover_rate(coat).m2_per_l;
    for (const CoatSession& session : coat.sessions) {
      const int count = portions(session.work, sum_.batches.usable);
      sum_.batches.sessions.push_back(
          {coat.piece,
           number,
           count,
           Volume::from_litres(session.area.square_metres() * litres_per_m2 / count),
           session.work * (1.0 / count)});
    }
  }

  ProductAmount sum_;
  double used_ = 0.0;     ///< L
  double thinner_ = 0.0;  ///< L, without waste
  std::map<std::string, int> coats_on_;
};

}  // namespace

CoverRate cover_rate(const CoatUse& coat) {
  CoverRate rate;
  const double efficiency = efficiency_of(coat);
  rate.film = film_to_reckon_with(coat);
  if (rate.film) {
    rate.on_the_wood = efficiency;
    rate.m2_per_l = spread_from_wet_film_m2_per_l(*rate.film) * efficiency;
    return rate;
  }
  rate.spread_m2_per_l = coat.product->film.spread_low_m2_per_l;
  rate.m2_per_l = rate.spread_m2_per_l;
  if (coat.tool->method == Method::kSpray) {
    rate.on_the_wood = efficiency;
    rate.m2_per_l *= efficiency;
  }
  return rate;
}

std::vector<ProductAmount> amounts_of(const std::vector<CoatUse>& coats,
                                      const Application& application,
                                      const BatchAir& air) {
  std::vector<std::string> order;
  std::map<std::string, ProductSum> sums;
  for (const CoatUse& coat : coats) {
    const auto [sum, added] =
        sums.try_emplace(coat.product->name, *coat.product, application.waste.percent, air);
    if (added) {
      order.push_back(coat.product->name);
    }
    sum->second.add(coat);
  }
  std::vector<ProductAmount> amounts;
  for (const std::string& name : order) {
    amounts.push_back(sums.at(name).done());
  }
  return amounts;
}

double spread_from_wet_film_m2_per_l(FilmThickness wet) {
  return kSquareMetresPerLitreAndMicrometre / wet.micrometres();
}

double thinner_ratio(double solids, double share) {
  return share * (1.0 - solids) / (1.0 - share);
}

double thinned_solids(double solids, double ratio) {
  return solids / (1.0 + ratio);
}

}  // namespace coatwright
