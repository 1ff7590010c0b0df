/* Each caution with words that set it off and near misses that do not. The published rules stand
 * beside them; figures: FSIS safe minimum internal temperatures (poultry 74 °C, minced meat 71 °C,
 * whole cuts and fish 63 °C); Food Code 2022 3-501.14 (57 to 21 °C in 2 h), 3-403.11 (reheat to
 * 74 °C), 3-501.19 (time as a control). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "judge/hazards.h"
#include "whole_post.h"

static const struct tried {
    const char *caution;
    bool fires;
    const char *title, *lines, *steps, *notes;
} tried[] = {
    {"hot-sugar", true, "Sweets", "300 g sugar; 100 ml water",
     "Boil the sugar and water to 118 °C.", NULL},
    {"hot-sugar", true, "Jam", "700 g plums; 500 g sugar",
     "Bring to a rolling boil and boil the jam to setting point.", NULL},
    {"hot-sugar", true, "Brittle", "200 g sugar", "Melt the sugar until it is an amber caramel.",
     NULL},
    {"hot-sugar", false, "Onions", "2 onions",
     "Caramelise the onions with a pinch of sugar for 20 minutes.", NULL},
    {"hot-sugar", false, "Cake", "100 g sugar", "Whisk the sugar with the eggs and bake at 180 °C.",
     NULL},
    {"hot-sugar", false, "Beans", "200 g dried kidney beans",
     "Keep the beans at a rolling boil for 10 minutes with the jam jar lid on.", NULL},
    {"deep-fat", true, "Fritters", "1 litre sunflower oil",
     "Heat the oil to 180 °C and fry the fritters.", NULL},
    {"deep-fat", true, "Chips", "1 litre sunflower oil", "Deep-fry the chips in batches.", NULL},
    {"deep-fat", false, "Onions", "2 tbsp olive oil",
     "Heat the oil in a frying pan and fry for 5 minutes.", NULL},
    {"deep-fat", false, "Chips", "2 tbsp olive oil", "Toss in the oil and bake at 200 °C.", NULL},
    {"raw-beans", true, "Chilli", "200 g dried kidney beans", "Boil the beans for 30 minutes.",
     NULL},
    {"raw-beans", true, "Beans", "250 g dried cannellini beans",
     "Soak the beans overnight. Boil for 20 minutes.", NULL},
    {"raw-beans", false, "Chilli", "1 x 400 g tin kidney beans, drained", "Warm the beans.", NULL},
    {"raw-beans", false, "Dal", "200 g red lentils", "Boil the lentils.", NULL},
    {"beans-not-boiled", true, "Beans", "250 g dried red kidney beans; 1 litre water",
     "Soak the beans for 8 hours.|Simmer gently for 2 hours until tender.", NULL},
    {"beans-not-boiled", false, "Beans", "250 g dried red kidney beans; 1 litre water",
     "Soak the beans for 8 hours.|Boil hard for 10 minutes, then simmer until tender.", NULL},
    {"cooled-too-slowly", true, "Stock", "1 kg chicken wings; 2 litres water",
     "Simmer the chicken for 3 hours.|Leave on the hob overnight to cool, then strain.", NULL},
    {"cooled-too-slowly", false, "Bread", "500 g flour; 10 g salt",
     "Mix and leave on the counter overnight to rise.|Bake for 40 minutes.", NULL},
    {"nuts-for-toddlers", true, "Nuts", "100 g whole almonds; 100 g raisins",
     "Mix the almonds and raisins, a snack for toddlers.", NULL},
    {"nuts-for-toddlers", true, "Popcorn for little ones", "100 g popping corn",
     "Pop the corn in a lidded pan.", NULL},
    {"nuts-for-toddlers", false, "Nuts", "100 g whole almonds; 100 g raisins",
     "Mix the almonds and raisins. Not for toddlers.", NULL},
    {"nuts-for-toddlers", false, "Porridge", "50 g ground almonds; 100 g rolled oats",
     "Simmer the oats with the almonds, a breakfast for toddlers.", NULL},
    {"rice-reheated-often", true, "Rice", "300 g cooked rice",
     "Reheat the rice as often as you like over the week.", NULL},
    {"rice-reheated-often", false, "Rice", "300 g cooked rice",
     "Reheat the rice until steaming hot, and never more than once.", NULL},
    {"rice-reheated-often", true, "Rice", "300 g rice",
     "Boil the rice.|The rice can be reheated many times.", NULL},
    {"rice-reheated-often", false, "Rice", "300 g rice",
     "Stir the rice several times while it boils.", NULL},
    {"beans-slow-cooker", true, "Chilli", "200 g dried kidney beans",
     "Soak the beans overnight.|Put all in the slow cooker on low for 8 hours.", NULL},
    {"beans-slow-cooker", true, "Beans", "200 g dried borlotti beans",
     "Cook in a crock pot for 6 hours.", NULL},
    {"beans-slow-cooker", false, "Chilli", "200 g dried kidney beans",
     "Boil hard for 10 minutes.|Put all in the slow cooker for 8 hours.", NULL},
    {"beans-slow-cooker", false, "Chilli", "1 x 400 g tin kidney beans, drained",
     "Put all in the slow cooker for 4 hours.", NULL},
    {"beans-not-boiled", true, "Beans", "200 g dried kidney beans",
     "Soak overnight.|Simmer the beans for 2 hours.", NULL},
    {"beans-not-boiled", true, "Beans", "200 g dried pinto beans",
     "Cook the beans gently at 80 °C until soft.", NULL},
    {"beans-not-boiled", false, "Beans", "200 g dried kidney beans",
     "Bring the beans to the boil.|Simmer the beans for 2 hours.", NULL},
    {"beans-not-boiled", false, "Beans", "1 x 400 g tin kidney beans, drained",
     "Simmer the beans for 10 minutes.", NULL},
    {"garlic-in-oil", true, "Oil", "4 garlic cloves; 250 ml olive oil",
     "Warm the garlic in the oil, take it off the heat and infuse for 2 hours.", NULL},
    {"garlic-in-oil", true, "Herbs", "20 g fresh basil; 250 ml olive oil",
     "Put the basil in a jar and cover with the oil.", NULL},
    {"garlic-in-oil", false, "Pasta", "2 garlic cloves; 2 tbsp olive oil",
     "Fry the garlic in the oil for a minute.", NULL},
    {"garlic-in-oil", false, "Vinegar", "20 g fresh tarragon; 250 ml white wine vinegar",
     "Steep the tarragon in the vinegar for 2 weeks.", NULL},
    {"garlic-oil-kept-warm", true, "Garlic oil", "4 garlic cloves; 250 ml olive oil",
     "Strain into a bottle.", "Keep it in a cupboard away from light."},
    {"garlic-oil-kept-warm", true, "A useful oil", "4 garlic cloves; 250 ml olive oil",
     "Bottle the garlic oil and keep it at room temperature.", NULL},
    {"garlic-oil-kept-warm", false, "Garlic oil", "4 garlic cloves; 250 ml olive oil",
     "Cool to room temperature, then chill.", "Keeps 4 days in the fridge."},
    {"garlic-oil-kept-warm", false, "Pasta", "2 tbsp garlic-infused oil",
     "Let the pasta come to room temperature.", NULL},
    {"garlic-oil-kept-long", true, "Garlic oil", "4 garlic cloves; 250 ml olive oil", "Strain.",
     "Keeps for 2 weeks in the fridge."},
    {"garlic-oil-kept-long", true, "Things in jars", "20 g fresh basil; 250 ml olive oil",
     "The basil oil keeps for a month in the fridge.", NULL},
    {"garlic-oil-kept-long", false, "Garlic oil", "4 garlic cloves; 250 ml olive oil", "Strain.",
     "Keeps for 3 days in the fridge."},
    {"garlic-oil-kept-long", false, "Garlic oil", "4 garlic cloves; 250 ml olive oil", "Strain.",
     "Freezes for 3 months."},
    {"ginkgo-nuts", true, "Custard", "12 ginkgo nuts; 3 eggs", "Steam for 12 minutes.", NULL},
    {"ginkgo-nuts", true, "Rice", "50 g ginnan; 300 g rice", "Boil for 15 minutes.", NULL},
    {"ginkgo-nuts", false, "Tea", "1 tsp ginkgo leaf; 200 ml water", "Steep.", NULL},
    {"ginkgo-nuts", false, "Rice", "50 g pine nuts; 300 g rice", "Boil for 15 minutes.", NULL},
    {"lupin", true, "Bread", "100 g lupin flour; 200 g rice flour", "Bake it.", NULL},
    {"lupin", true, "Snack", "250 g lupini beans", "Soak and boil.", NULL},
    {"lupin", false, "Bread", "300 g rice flour", "Bake it.", NULL},
    {"lupin", false, "Snack", "250 g tinned chickpeas", "Roast them.", NULL},
    {"honey-infant", true, "Cake", "2 tbsp honey; 200 g flour", "Bake it.", NULL},
    {"honey-infant", true, "Tea", "1 tsp honey or maple syrup", "Stir it in.", NULL},
    {"honey-infant", false, "Cake", "2 tbsp maple syrup", "Bake it.", NULL},
    {"honey-infant", false, "Melon", "1 honeydew melon", "Slice it.", NULL},
    {"honey-for-infant", true, "Porridge for babies", "1 tsp honey; 50 g oats", "Cook it.", NULL},
    {"honey-for-infant", true, "Porridge", "1 tsp honey; 50 g oats", "Cook it.",
     "Mash it for your baby."},
    {"honey-for-infant", false, "Porridge", "1 tsp honey; 50 g oats", "Cook it.",
     "Not for babies under 12 months: leave the honey out."},
    {"honey-for-infant", false, "Salad", "1 tsp honey; 100 g baby spinach",
     "Toss the baby spinach.", NULL},
    {"raw-flour-dough", true, "Cookie dough bites", "200 g plain flour; 100 g sugar",
     "Roll into balls and chill.", NULL},
    {"raw-flour-dough", true, "Biscuits", "200 g plain flour; 100 g sugar",
     "Taste the dough. Bake for 12 minutes.", NULL},
    {"raw-flour-dough", false, "Biscuits", "200 g plain flour; 100 g sugar",
     "Roll the dough. Bake for 12 minutes.", NULL},
    {"raw-flour-dough", false, "Cookie dough bites", "200 g plain flour; 100 g sugar",
     "Bake the flour for 10 minutes and let it cool.|Roll into balls.", NULL},
    {"raw-egg-uncooked", true, "Mayonnaise", "1 egg yolk; 200 ml sunflower oil",
     "Whisk the mayonnaise.", NULL},
    {"raw-egg-uncooked", true, "Icing", "1 egg white; 200 g icing sugar",
     "Stir together and spread.", NULL},
    {"raw-egg-uncooked", false, "Cake", "2 eggs; 200 g flour", "Bake for 30 minutes.", NULL},
    {"raw-egg-uncooked", false, "Potatoes", "2 tbsp mayonnaise", "Stir in the mayonnaise.", NULL},
    {"rice-cooling", true, "Fried rice", "300 g cooked rice",
     "Break up the cold rice and fry for 5 minutes.", NULL},
    {"rice-cooling", true, "Salad", "200 g white rice",
     "Boil for 12 minutes.|Let the rice cool and dress it.", NULL},
    {"rice-cooling", false, "Rice", "200 g white rice", "Boil for 12 minutes and serve.", NULL},
    {"rice-cooling", false, "Rolls", "8 sheets rice paper", "Dip the rice paper in cold water.",
     NULL},
    {"rice-left-warm", true, "Salad", "200 g white rice",
     "Boil the rice. Leave it to cool for 4 hours.", NULL},
    {"rice-left-warm", true, "Fried rice", "200 g white rice",
     "Boil. Leave the rice out overnight.", NULL},
    {"rice-left-warm", false, "Salad", "200 g white rice",
     "Boil the rice. Spread it out and let it cool for 30 minutes.", NULL},
    {"rice-left-warm", false, "Rice", "200 g brown rice",
     "Soak the rice at room temperature for 8 hours, then boil for 30 minutes.", NULL},
    {"cooled-too-slowly", true, "Soup", "500 g carrots",
     "Simmer.|Leave the soup to cool at room temperature overnight.", NULL},
    {"cooled-too-slowly", true, "Stock", "1 kg chicken bones",
     "Let the stock stand on the counter for 5 hours.", NULL},
    {"cooled-too-slowly", true, "Stew", "500 g beef",
     "Leave the stew in the pot to cool overnight.", NULL},
    {"cooled-too-slowly", false, "Soup", "500 g carrots",
     "Let the soup cool to room temperature for 30 minutes, then chill.", NULL},
    {"cooled-too-slowly", false, "Bread", "500 g flour",
     "Let the dough rise at room temperature for 8 hours.", NULL},
    {"cooled-too-slowly", false, "Soup", "500 g carrots", "Simmer.",
     "Never leave the soup at room temperature for 4 hours."},
    {"held-too-long", true, "Curry", "500 g potatoes",
     "Keep warm for 4 hours until the guests come.", NULL},
    {"held-too-long", true, "Quiche", "3 eggs", "Bake.", "It can sit out for 5 hours at a picnic."},
    {"held-too-long", false, "Curry", "500 g potatoes", "Keep warm for 10 minutes.", NULL},
    {"held-too-long", false, "Curry", "500 g potatoes", "Keep warm above 60 °C for 4 hours.", NULL},
    {"poultry-core", true, "Chicken", "4 chicken thighs", "Fry the chicken until done.", NULL},
    {"poultry-core", true, "Turkey", "500 g turkey breast", "Roast the turkey.", NULL},
    {"poultry-core", false, "Soup", "1 litre chicken stock", "Warm the chicken stock.", NULL},
    {"poultry-core", false, "Chickpeas", "400 g chickpeas", "Roast the chickpeas.", NULL},
    {"poultry-undercooked", true, "Chicken", "4 chicken thighs",
     "Roast until the middle of the thighs reads 65 °C.", NULL},
    {"poultry-undercooked", true, "Turkey", "500 g turkey breast",
     "Cook until a thermometer in the turkey shows 150 °F.", NULL},
    {"poultry-undercooked", false, "Chicken", "4 chicken thighs",
     "Roast until the middle reads 74 °C (165 °F).", NULL},
    {"poultry-undercooked", false, "Chicken", "4 chicken thighs", "Roast the chicken at 200 °C.",
     NULL},
    {"ground-meat-undercooked", true, "Burgers", "500 g minced beef",
     "Fry the burgers until the middle reads 60 °C.", NULL},
    {"ground-meat-undercooked", true, "Meatballs", "500 g minced pork",
     "Bake the meatballs to an internal 150 °F.", NULL},
    {"ground-meat-undercooked", false, "Burgers", "500 g minced beef",
     "Fry the burgers until the middle reads 71 °C.", NULL},
    {"ground-meat-undercooked", false, "Burgers", "500 g minced beef",
     "Warm the plates to 60 °C in the oven.", NULL},
    {"whole-meat-below", true, "Steak", "2 beef steaks",
     "Fry until the middle of the steaks reads 54 °C.", NULL},
    {"whole-meat-below", true, "Pork", "500 g pork loin",
     "Roast until a thermometer in the pork reads 58 °C.", NULL},
    {"whole-meat-below", false, "Pork", "500 g pork loin",
     "Roast until a thermometer in the pork reads 63 °C.", NULL},
    {"whole-meat-below", false, "Pork", "500 g pork loin",
     "Roast the pork at 60 °C of oven heat for 8 hours in the oven.", NULL},
    {"fish-below", true, "Salmon", "2 salmon fillets",
     "Bake until the middle of the salmon reads 50 °C.", NULL},
    {"fish-below", true, "Cod", "400 g cod", "Fry until a thermometer in the cod reads 130 °F.",
     NULL},
    {"fish-below", false, "Salmon", "2 salmon fillets",
     "Bake until the middle of the salmon reads 63 °C.", NULL},
    {"fish-below", false, "Salmon", "2 salmon fillets",
     "Bake the salmon at 180 °C until it flakes.", NULL},
    {"raw-fish", true, "Sea bass ceviche", "300 g salmon", "Dress with lime.", NULL},
    {"raw-fish", true, "Tuna tartare", "300 g tuna", "Chop and dress.", NULL},
    {"raw-fish", false, "Roast salmon", "300 g salmon", "Roast it.", NULL},
    {"raw-fish", false, "Mushroom ceviche", "300 g oyster mushrooms", "Dress with lime.", NULL},
    {"reheating", true, "Soup", "500 g carrots", "Simmer.", "Reheat the soup gently."},
    {"reheating", true, "Lasagne", "500 g minced beef", "Bake.",
     "Leftovers can be reheated in the oven."},
    {"reheating", false, "Rolls", "500 g flour", "Bake.", "Reheat the rolls for 5 minutes."},
    {"reheating", false, "Soup", "500 g carrots", "Simmer and serve the soup.", NULL},
    {"reheated-too-cool", true, "Soup", "500 g carrots", "Simmer.", "Reheat the soup to 60 °C."},
    {"reheated-too-cool", true, "Stew", "500 g beef", "Simmer.",
     "Reheat until the middle reads 140 °F."},
    {"reheated-too-cool", false, "Soup", "500 g carrots", "Simmer.", "Reheat the soup to 75 °C."},
    {"reheated-too-cool", false, "Pie", "500 g beef", "Bake.", "Reheat in the oven at 160 °C."},
    {"kept-too-long", true, "Carrot soup", "500 g carrots", "Simmer.",
     "Keeps for a week in the fridge."},
    {"kept-too-long", true, "Chicken", "4 chicken thighs", "Roast the chicken.",
     "Leftovers keep 6 days in the fridge."},
    {"kept-too-long", false, "Carrot soup", "500 g carrots", "Simmer.",
     "Keeps for 3 days in the fridge."},
    {"kept-too-long", false, "Carrot soup", "500 g carrots", "Simmer.", "Freezes for 3 months."},
    {"kept-too-long", false, "Plum jam", "500 g plums", "Boil.",
     "Keeps for a month in the fridge."},
    {"thawed-warm", true, "Chicken", "4 chicken thighs", "Defrost the chicken at room temperature.",
     NULL},
    {"thawed-warm", true, "Prawns", "300 g prawns", "Thaw the prawns on the counter.", NULL},
    {"thawed-warm", false, "Chicken", "4 chicken thighs",
     "Defrost the chicken in the fridge overnight.", NULL},
    {"thawed-warm", false, "Pie", "300 g spinach", "Thaw the spinach at room temperature.", NULL},
    {"poultry-washed", true, "Chicken", "4 chicken thighs", "Rinse the chicken under the tap.",
     NULL},
    {"poultry-washed", true, "Turkey", "1 kg turkey breast", "Wash the turkey and dry it.", NULL},
    {"poultry-washed", false, "Chicken", "4 chicken thighs; 200 g white rice",
     "Rinse the rice. Fry the chicken.", NULL},
    {"poultry-washed", false, "Chicken", "4 chicken thighs", "Do not rinse the chicken.", NULL},
    {"low-acid-water-bath", true, "Green beans in jars", "1 kg green beans",
     "Process the jars for 30 minutes.", NULL},
    {"low-acid-water-bath", true, "Soup in jars", "1 kg carrots",
     "Put the jars in a boiling-water bath for an hour.", NULL},
    {"low-acid-water-bath", false, "Pickled beans", "1 kg green beans; 500 ml white wine vinegar",
     "Pour the vinegar over and process the jars for 10 minutes.", NULL},
    {"low-acid-water-bath", false, "Custard", "4 eggs", "Bake in a water bath for 40 minutes.",
     NULL},
    {"low-acid-in-pantry", true, "Basil pesto", "50 g fresh basil", "Blend.",
     "Keeps for 3 months in the cupboard."},
    {"low-acid-in-pantry", true, "Tomato sauce", "1 kg tomatoes", "Simmer and bottle.",
     "Store the jars for up to a year at room temperature."},
    {"low-acid-in-pantry", false, "Basil pesto", "50 g fresh basil", "Blend.",
     "Keeps for 4 days in the fridge."},
    {"low-acid-in-pantry", false, "Plum jam", "1 kg plums", "Boil.",
     "Keeps for a year in a cool dark place."},
    {"home-jars", true, "Jam", "1 kg plums", "Pour into sterilised jars.", NULL},
    {"home-jars", true, "Relish", "1 kg tomatoes", "Spoon into hot jars and seal.", NULL},
    {"home-jars", false, "Oats", "100 g oats", "Put the oats in a jar overnight.", NULL},
    {"home-jars", false, "Dressing", "100 ml olive oil", "Shake in a jar.", NULL},
    {"superheated-liquid", true, "Tea", "300 ml water",
     "Microwave the water for 2 minutes at 800 W.", NULL},
    {"superheated-liquid", true, "Cocoa", "300 ml milk",
     "Heat the milk in a mug in the microwave at 800 W for 90 seconds.", NULL},
    {"superheated-liquid", false, "Potato", "1 potato",
     "Microwave the potato for 6 minutes at 800 W.", NULL},
    {"superheated-liquid", false, "Cocoa", "300 ml milk", "Warm the milk in a pan.", NULL},
    {"sealed-in-microwave", true, "Soup", "300 g soup",
     "Seal the jar.|Put the sealed jar in the microwave for 2 minutes at 800 W.", NULL},
    {"sealed-in-microwave", true, "Oats", "100 g oats",
     "Microwave in a tightly closed tub at 800 W for 1 minute.", NULL},
    {"sealed-in-microwave", false, "Oats", "100 g oats",
     "Microwave with the lid ajar, never tightly closed.", NULL},
    {"sealed-in-microwave", false, "Oats", "100 g oats",
     "Store in an airtight box.|Microwave at 800 W for 1 minute.", NULL},
    {"egg-in-microwave", true, "Egg", "1 egg", "Reheat the boiled egg in the microwave.", NULL},
    {"egg-in-microwave", true, "Egg", "2 eggs", "Microwave the whole eggs for a minute.", NULL},
    {"egg-in-microwave", false, "Egg", "2 eggs",
     "Beat the eggs and microwave for a minute at 800 W.", NULL},
    {"egg-in-microwave", false, "Egg", "2 eggs", "Boil the whole eggs for 8 minutes.", NULL},
    {"whole-nuts", true, "Salad", "50 g walnuts", "Scatter the walnuts over.", NULL},
    {"whole-nuts", true, "Snack", "200 g almonds", "Roast the almonds at 160 °C for 12 minutes.",
     NULL},
    {"whole-nuts", false, "Cake", "100 g ground almonds", "Bake.", NULL},
    {"whole-nuts", false, "Salad", "50 g walnuts, finely chopped", "Scatter over.", NULL},
    {"popcorn", true, "Popcorn", "100 g popping corn", "Pop it in a lidded pan.", NULL},
    {"popcorn", true, "Sweet popcorn", "50 g popcorn", "Toss with syrup.", NULL},
    {"popcorn", false, "Corn", "200 g sweetcorn", "Boil it.", NULL},
    {"popcorn", false, "Polenta", "200 g polenta", "Stir it in.", NULL},
    {"swallowed-dry", true, "Bowl", "2 tbsp chia seeds; 100 g strawberries",
     "Sprinkle the chia seeds over the strawberries and serve.", NULL},
    {"swallowed-dry", true, "Bowl", "1 tbsp psyllium husk; 100 g strawberries",
     "Scatter the psyllium over.", NULL},
    {"swallowed-dry", false, "Pudding", "2 tbsp chia seeds; 200 ml almond milk",
     "Stir and leave overnight.", NULL},
    {"swallowed-dry", false, "Bread", "1 tbsp psyllium husk; 300 g rice flour", "Bake for an hour.",
     NULL},
    {"swallowed-dry-stated", true, "Husk", "1 tbsp psyllium husk",
     "Swallow the husk dry and drink after it.", NULL},
    {"swallowed-dry-stated", true, "Chia", "1 tbsp chia seeds", "Swallow a spoonful each morning.",
     NULL},
    {"swallowed-dry-stated", false, "Chia", "1 tbsp chia seeds",
     "Never swallow the seeds dry. Soak them.", NULL},
    {"swallowed-dry-stated", false, "Chia", "1 tbsp chia seeds",
     "Take a spoonful of the soaked chia.", NULL},
    {"raw-sprouts", true, "Salad", "100 g beansprouts", "Toss the beansprouts with lime.", NULL},
    {"raw-sprouts", true, "Sandwich", "30 g alfalfa sprouts", "Pile on the sprouts.", NULL},
    {"raw-sprouts", false, "Stir-fry", "100 g beansprouts",
     "Stir-fry the beansprouts for 3 minutes.", NULL},
    {"raw-sprouts", false, "Roast", "200 g brussels sprouts", "Roast them.", NULL},
    {"rhubarb-leaves", true, "Crumble", "500 g rhubarb", "Stew the rhubarb.", NULL},
    {"rhubarb-leaves", true, "Fool", "6 sticks rhubarb", "Simmer.", NULL},
    {"rhubarb-leaves", false, "Crumble", "500 g rhubarb, trimmed", "Stew the rhubarb.", NULL},
    {"rhubarb-leaves", false, "Crumble", "500 g plums", "Stew the plums.", NULL},
};

enum { TRIED = sizeof tried / sizeof *tried };

static bool
fires(struct arena *a, const struct tried *t, struct notices *notices)
{
    struct whole_post w;
    struct hazards h;
    read_whole_post(a, compose(a, t->title, "", t->lines, t->steps, t->notes), &w);
    hazards_judge(judging(a, &w), &h);
    *notices = w.notices;
    for (size_t i = 0; i < h.count; i++)
        if (strcmp(h.items[i].caution->id, t->caution) == 0)
            return true;
    return false;
}

static void
fires_where_it_should_and_nowhere_else(void **state)
{
    (void)state;
    size_t wrong = 0;
    for (size_t i = 0; i < TRIED; i++) {
        struct arena *a = arena_open(16384);
        struct notices notices;
        if (fires(a, &tried[i], &notices) != tried[i].fires) {
            print_error("%s %s: %s / %s / %s\n", tried[i].caution,
                        tried[i].fires ? "does not fire" : "fires", tried[i].title, tried[i].steps,
                        tried[i].notes != NULL ? tried[i].notes : "");
            wrong++;
        }
        arena_close(a);
    }
    assert_int_equal(wrong, 0);
}

static void
tries_every_caution_both_ways(void **state)
{
    (void)state;
    for (size_t i = 0; i < tables.cautions.count; i++) {
        const struct caution *c = &tables.cautions.items[i];
        size_t yes = 0, no = 0;
        for (size_t k = 0; k < TRIED; k++)
            if (strcmp(tried[k].caution, c->id) == 0)
                *(tried[k].fires ? &yes : &no) += 1;
        /* or in a file of its own, which wants six of each */
        if ((yes < 2 || no < 2) &&
            access(text_format(tables_arena, "tests/said/%s.tsv", c->id), R_OK) != 0)
            fail_msg("%s: %zu that fire, %zu near misses", c->id, yes, no);
        assert_non_null(c->defer);
        assert_non_null(c->source);
    }
}

static void
reports_a_practice_with_the_authors_words(void **state)
{
    (void)state;
    static const struct tried t = {"poultry-undercooked",
                                   true,
                                   "Chicken",
                                   "4 chicken thighs",
                                   "Roast until the middle of the thighs reads 65 °C.",
                                   NULL};
    struct arena *a = arena_open(16384);
    struct notices notices;
    assert_true(fires(a, &t, &notices));
    assert_int_equal(count_rule(&notices, RULE_SAFETY_DANGER), 1);
    const struct notice *n = NULL;
    for (size_t i = 0; i < notices.count; i++)
        if (notices.items[i].rule == RULE_SAFETY_DANGER)
            n = &notices.items[i];
    assert_true(slice_is(n->what, "Roast until the middle of the thighs reads 65 °C"));
    assert_int_equal(n->place.line, 10);
    arena_close(a);
}

/* whether a caution fires of a post with prose before its method */
static bool
fires_with_prose(struct arena *a, const char *caution, const char *lines, const char *steps,
                 const char *prose)
{
    struct whole_post w;
    struct hazards h;
    const struct slice all = slice_of(compose(a, "A dish", "", lines, steps, NULL));
    const size_t method = slice_find(all, "## Method", 0);
    read_whole_post(a,
                    text_format(a, "%.*s%s\n\n%.*s", SLICE_ARGS(slice_part(all, 0, method)), prose,
                                SLICE_ARGS(slice_part(all, method, all.length))),
                    &w);
    hazards_judge(judging(a, &w), &h);
    for (size_t i = 0; i < h.count; i++)
        if (strcmp(h.items[i].caution->id, caution) == 0)
            return true;
    return false;
}

/* a wrong practice counts wherever it is told; what only the prose speaks of is not done */
static void
prose_tells_practices_and_excuses_nothing(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    const char *often = "Reheat the rice as often as you like.";
    const char *eggs = "2 eggs; 200 g sugar", *whisk = "Whisk the eggs with the sugar.";
    assert_true(fires_with_prose(a, "rice-reheated-often", "200 g rice", "Boil the rice.", often));
    assert_false(
        fires_with_prose(a, "rice-reheated-often", "200 g rice", "Boil the rice.", "Rice."));
    assert_true(fires_with_prose(a, "raw-egg-uncooked", eggs, whisk, "Nobody has to bake it."));
    assert_false(fires_with_prose(a, "raw-egg-uncooked", eggs,
                                  "Whisk the eggs with the sugar. Bake for 30 minutes.", "Eggs."));
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fires_where_it_should_and_nowhere_else),
        cmocka_unit_test(tries_every_caution_both_ways),
        cmocka_unit_test(reports_a_practice_with_the_authors_words),
        cmocka_unit_test(prose_tells_practices_and_excuses_nothing),
    };
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
