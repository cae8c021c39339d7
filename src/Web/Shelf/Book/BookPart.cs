using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>The parts of the workshop's book, as pages name them.</summary>
internal static class BookPart
{
    /// <summary>Their names in addresses, in the order of the hub.</summary>
    public static readonly string[] All = ["prices", "recipes", "machines", "placements", "care", "rest"];

    /// <summary>In the reader's words.</summary>
    public static string Word(string part) =>
        part switch
        {
            "prices" => LayoutWords.Prices,
            "recipes" => LayoutWords.Recipes,
            "machines" => LayoutWords.Machines,
            "placements" => BookWords.Placements,
            "care" => BookWords.Care,
            _ => BookWords.Rest,
        };

    /// <summary>The forms that change it, and the pages that lead to more of them.</summary>
    public static (string Address, string Words)[] Forms(string part) =>
        part switch
        {
            "prices" => [("/workshop/prices", BookWords.ChangePrices)],
            "recipes" => [("/recipes", BookWords.OpenRecipes), ("/workshop/new-process", BookWords.NewProcess)],
            "machines" =>
            [
                ("/workshop/machines", BookWords.ChangeMachines),
                ("/workshop/laying", BookWords.ChangeLaying),
            ],
            "placements" =>
            [
                ("/placements", BookWords.OpenPlacements),
                ("/workshop/new-placement", BookWords.NewPlacement),
            ],
            "care" => [("/workshop/care", BookWords.ChangeCare)],
            _ => [("/workshop/rest", BookWords.ChangeRest)],
        };

    /// <summary>The place of the app that it belongs to.</summary>
    public static string PlaceOf(string part) =>
        part switch
        {
            "placements" or "care" => "recipes",
            "rest" => "workshop",
            _ => part,
        };
}
