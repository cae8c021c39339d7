using System.Text.Json.Nodes;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>Prices, machines, sheets, placements and care as forms. All of it lies under the owner's part of the app.</summary>
internal static class EditRoutes
{
    private const string Gone = "gone";
    private const int MostTips = 10;
    private const int MostCrosses = 10;

    public static void Map(IEndpointRouteBuilder app)
    {
        FormFrame.Map(app, "/workshop/prices", Prices);
        FormFrame.Map(app, "/workshop/machines", Machines);
        FormFrame.Map(app, "/workshop/laying", Laying);
        FormFrame.Map(app, "/workshop/care", Care);
        FormFrame.Map(app, "/workshop/rest", Rest);
        FormFrame.Map(app, "/workshop/new-placement", NewPlacement);
        FormFrame.Map(app, "/workshop/placements/{name}", Placement);
        EditRecipeRoutes.Map(app);
    }

    /// <summary>Whether a form asks that what it shows be taken out.</summary>
    public static bool IsGone(IFormCollection? sent) => sent?[Gone].ToString() == "yes";

    private static FormOf Prices(Asked asked)
    {
        var prices = (JsonObject)asked.Whole["prices"]!;
        return Whole(asked, BookSection.Prices, "/workshop/prices") with
        {
            Title = BookWords.ChangePrices,
            Lead = BookWords.PricesWhat,
            Place = "prices",
            Back = "/prices",
            BackWords = LayoutWords.Prices,
            Page = (view, sent) =>
                Pages.Of<PricesForm>(
                    new
                    {
                        View = view,
                        Currency = (string)prices["currency"]!,
                        Blanks = FormFrame.Rows(
                            ((JsonObject)prices["blanks"]!).Count,
                            BookForm.NewRows,
                            sent,
                            "/blanks/"
                        ),
                    }
                ),
        };
    }

    private static FormOf Machines(Asked asked) =>
        Whole(asked, BookSection.Machines, "/workshop/machines") with
        {
            Title = BookWords.ChangeMachines,
            Lead = BookWords.MachinesWhat,
            Place = "machines",
            Back = "/machines",
            BackWords = LayoutWords.Machines,
            Page = (view, sent) =>
                Pages.Of<MachinesForm>(
                    new
                    {
                        View = view,
                        Presses = FormFrame.Rows(Count(asked, "presses"), 1, sent, "/presses/"),
                        Sheets = FormFrame.Rows(Count(asked, "sheets"), 1, sent, "/sheets/"),
                    }
                ),
        };

    private static FormOf Laying(Asked asked) =>
        Whole(asked, BookSection.Machines, "/workshop/laying") with
        {
            Title = BookWords.ChangeLaying,
            Lead = BookWords.LayingWhat,
            Place = "machines",
            Back = "/machines",
            BackWords = LayoutWords.Machines,
            Page = (view, sent) =>
                Pages.Of<LayingForm>(
                    new
                    {
                        View = view,
                        asked.Book,
                        Remnants = FormFrame.Rows(Count(asked, "remnants"), 1, sent, "/remnants/"),
                    }
                ),
        };

    private static FormOf Care(Asked asked) =>
        Whole(asked, BookSection.Care, "/workshop/care") with
        {
            Title = BookWords.ChangeCare,
            Lead = BookWords.CareWhat,
            Back = "/care",
            BackWords = BookWords.Care,
            Page = (view, sent) =>
                Pages.Of<CareForm>(
                    new
                    {
                        View = view,
                        Tips = Math.Min(
                            MostTips,
                            FormFrame.Rows(Count(asked, "careTips"), BookForm.NewRows, sent, "/careTips/")
                        ),
                    }
                ),
        };

    private static FormOf Rest(Asked asked) =>
        Whole(asked, BookSection.Rest, "/workshop/rest") with
        {
            Title = BookWords.ChangeRest,
            Lead = BookWords.RestWhat,
            Place = "workshop",
            Back = "/workshop/book",
            BackWords = BookWords.BookTitle,
            Page = (view, _) => Pages.Of<RestForm>(new { View = view }),
        };

    private static FormOf NewPlacement(Asked asked) =>
        Placement(asked, EntryFields.NewPlacement(asked.Whole), stands: false) with
        {
            Title = BookWords.NewPlacement,
            Action = "/workshop/new-placement",
        };

    private static FormOf? Placement(Asked asked) =>
        EntryFields.Placement(asked.Whole, asked.Name) is { } fields
            ? Placement(asked, fields, stands: true) with
            {
                Title = Say.With(BookWords.ChangePlacement, Say.Data(asked.Name)),
                Action = $"/workshop/placements/{Say.Step(asked.Name)}",
            }
            : null;

    private static FormOf Placement(Asked asked, EntryFields fields, bool stands)
    {
        const string Crosses = "/placement/keepOffThePlate";
        return Whole(asked, BookSection.Placements, "") with
        {
            Lead = BookWords.PlacementsWhat,
            Stands = fields.Stands,
            Fill = (values, sent) => stands && IsGone(sent) ? fields.Without() : fields.Fill(values),
            Back = "/placements",
            BackWords = BookWords.Placements,
            Page = (view, sent) =>
                Pages.Of<PlacementForm>(
                    new
                    {
                        View = view,
                        Stands = stands,
                        Gone = IsGone(sent),
                        Crosses = Math.Min(
                            MostCrosses,
                            FormFrame.Rows(
                                (fields.Stands(Crosses) as JsonArray)?.Count ?? 0,
                                BookForm.NewRows,
                                sent,
                                Crosses + "/"
                            )
                        ),
                    }
                ),
        };
    }

    // Fields that are named by their place in the file.
    private static FormOf Whole(Asked asked, BookSection section, string action) =>
        FormOf.Begun(section, "", action) with
        {
            Stands = field => FormFields.Stands(asked.Whole, field),
            Fill = (values, _) => BookForm.Of(asked.Whole, values),
        };

    private static int Count(Asked asked, string list) => (asked.Whole[list] as JsonArray)?.Count ?? 0;
}
