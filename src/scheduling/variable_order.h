#pragma once

#include <vector>

namespace coatwright {

/// Variables by how often they took part in recent conflicts, the most active first.
class VariableOrder {
 public:
  /// @param seed of the order before the first conflict.
  VariableOrder(int variables, unsigned seed);

  void bump(int variable);
  /// Older conflicts count less from now on.
  void decay();
  /// Takes the most active variable out; -1 when none is left.
  int pop();
  /// Puts a variable back in, if it is out.
  void insert(int variable);

 private:
  [[nodiscard]] bool before(int a, int b) const;
  void sift_up(std::size_t place);
  void sift_down(std::size_t place);
  void swap_places(std::size_t a, std::size_t b);

  std::vector<double> activity_;
  std::vector<int> heap_;
  std::vector<int> place_;  ///< In the heap; -1: out.
  double step_ = 1.0;
};

}  // namespace coatwright
