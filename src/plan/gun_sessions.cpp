#include "plan/gun_sessions.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace coatwright {
namespace {

/// Coats further apart than this are not drawn into one session.
constexpr Tick kNearTicks = 10 * 60;

/// A coat by spray with its place in the plan.
struct Spraying {
  SessionKey key;
  const Product* product;
  Tick start;
};

std::vector<Spraying> sprayings(const FoundShop& found) {
  std::vector<Spraying> all;
  const ShopModel& model = found.model;
  for (std::size_t part = 0; part < model.sessions.size(); ++part) {
    const PartChain& chain = *model.chains[part];
    for (std::size_t place = 0; place < model.sessions[part].size(); ++place) {
      const WorkItem& work = chain.works[chain.alone.sessions[place].work];
      const int activity = model.sessions[part][place].activity;
      if (may_share(work)) {
        all.push_back({{static_cast<int>(part), static_cast<int>(place)},
                       work.product,
                       found.schedule.starts[static_cast<std::size_t>(activity)]});
      }
    }
  }
  return all;
}

}  // namespace

std::vector<std::pair<SessionKey, SessionKey>> near_pairs(const FoundShop& found) {
  std::vector<std::tuple<Tick, SessionKey, SessionKey>> near;
  const std::vector<Spraying> all = sprayings(found);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const Tick apart = std::abs(all[i].start - all[j].start);
      if (all[i].key.part != all[j].key.part && all[i].product == all[j].product &&
          apart <= kNearTicks) {
        near.emplace_back(apart, all[i].key, all[j].key);
      }
    }
  }
  std::sort(near.begin(), near.end());
  std::vector<std::pair<SessionKey, SessionKey>> pairs;
  for (const auto& [apart, one, other] : near) {
    pairs.emplace_back(one, other);
  }
  return pairs;
}

bool join(const SessionKey& one, const SessionKey& other, std::vector<GunSession>& guns) {
  GunSession joined{one, other};
  std::vector<GunSession> kept;
  for (const GunSession& gun : guns) {
    const bool meets = std::find(gun.begin(), gun.end(), one) != gun.end() ||
                       std::find(gun.begin(), gun.end(), other) != gun.end();
    if (meets) {
      joined.insert(joined.end(), gun.begin(), gun.end());
    } else {
      kept.push_back(gun);
    }
  }
  std::sort(joined.begin(), joined.end());
  joined.erase(std::unique(joined.begin(), joined.end()), joined.end());
  for (std::size_t i = 1; i < joined.size(); ++i) {
    if (joined[i].part == joined[i - 1].part) {
      return false;
    }
  }
  kept.push_back(std::move(joined));
  guns = std::move(kept);
  return true;
}

}  // namespace coatwright
