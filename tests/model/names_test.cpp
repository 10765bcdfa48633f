#include "model/names.h"

#include <gtest/gtest.h>

namespace sash::model {
namespace {

template <class E>
void every_name_leads_back() {
  const auto names = all_names<E>();
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto value = from_name<E>(names[i]);
    ASSERT_TRUE(value.has_value()) << names[i];
    EXPECT_EQ(static_cast<std::size_t>(*value), i);
    EXPECT_EQ(name_of(*value), names[i]);
  }
  EXPECT_FALSE(from_name<E>("no such name"));
}

TEST(Names, EveryNameOfEverySetLeadsBackToItsValue) {
  every_name_leads_back<Hedge>();
  every_name_leads_back<Source>();
  every_name_leads_back<Role>();
  every_name_leads_back<Doubt::From>();
  every_name_leads_back<Standing>();
  every_name_leads_back<Route>();
  every_name_leads_back<Level>();
  every_name_leads_back<Delivery>();
  every_name_leads_back<RelationType>();
  EXPECT_EQ(name_of(RelationType::equilibrium), "equilibrium");
  EXPECT_EQ(name_of(Role::other), "other");
  EXPECT_EQ(name_of(Route::other), "other");
}

}  // namespace
}  // namespace sash::model
