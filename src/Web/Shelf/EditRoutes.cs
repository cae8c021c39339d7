using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Desk;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf;

/// <summary>Prices, recipes and machines as forms. All of it lies under the owner's part of the app.</summary>
internal static class EditRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/workshop/prices", (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Prices(new(c, f, w), null));
        app.MapPost(
            "/workshop/prices",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                Post(
                    new(c, f, w),
                    BookSection.Prices,
                    Stands,
                    (whole, values, _) => BookForm.Of(whole, values),
                    Prices,
                    "/prices"
                )
        );
        app.MapGet(
            "/workshop/machines",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Machines(new(c, f, w), null)
        );
        app.MapPost(
            "/workshop/machines",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                Post(
                    new(c, f, w),
                    BookSection.Machines,
                    Stands,
                    (whole, values, _) => BookForm.Of(whole, values),
                    Machines,
                    "/machines"
                )
        );
        app.MapGet(
            "/workshop/processes/{process}",
            (string process, HttpContext c, IAntiforgery f, OpenedWorkshop w) => Process(new(c, f, w), process, null)
        );
        app.MapPost(
            "/workshop/processes/{process}",
            (string process, HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                Post(
                    new(c, f, w),
                    BookSection.Recipes,
                    Stands,
                    (whole, values, _) => BookForm.OfProcess(whole, values),
                    (asked, sent) => Process(asked, process, sent),
                    "/recipes"
                )
        );
        app.MapGet(
            "/workshop/recipes/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) => Recipe(new(c, f, w), material, null)
        );
        app.MapPost(
            "/workshop/recipes/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                OfMaterial(
                    w,
                    material,
                    () =>
                        Post(
                            new(c, f, w),
                            BookSection.Recipes,
                            (whole, field) => StandsInRecipe(whole, material, field),
                            (whole, values, _) => BookForm.OfRecipe(whole, material, values),
                            (asked, sent) => Recipe(asked, material, sent),
                            $"/recipes/{Say.Step(material)}?kept=yes"
                        )
                )
        );
        app.MapGet(
            "/workshop/trials/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) => Trial(new(c, f, w), material, null)
        );
        app.MapPost(
            "/workshop/trials/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                OfMaterial(
                    w,
                    material,
                    () =>
                        Post(
                            new(c, f, w),
                            BookSection.Recipes,
                            (_, _) => null,
                            (whole, values, _) => BookForm.OfTrial(whole, material, values),
                            (asked, sent) => Trial(asked, material, sent),
                            $"/recipes/{Say.Step(material)}?kept=yes"
                        )
                )
        );
        app.MapGet(
            "/workshop/retire/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) => Retire(new(c, f, w), material, null)
        );
        app.MapPost(
            "/workshop/retire/{material}",
            (string material, HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                OfMaterial(
                    w,
                    material,
                    () =>
                        Post(
                            new(c, f, w),
                            BookSection.Recipes,
                            (_, _) => null,
                            (whole, _, form) => BookForm.Without(whole, material, form["what"] == "material"),
                            (asked, sent) => Retire(asked, material, sent),
                            "/recipes"
                        )
                )
        );
        app.MapGet(
            "/workshop/materials/new",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) => NewMaterial(new(c, f, w), null)
        );
        app.MapPost(
            "/workshop/materials/new",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                Post(
                    new(c, f, w),
                    BookSection.Recipes,
                    (_, _) => null,
                    (whole, values, form) => BookForm.WithMaterial(whole, form["like"].ToString(), values),
                    NewMaterial,
                    "/recipes"
                )
        );
    }

    private static async Task<IResult> OfMaterial(OpenedWorkshop workshop, string material, Func<Task<IResult>> go) =>
        Pressing(workshop, material) is null ? Pages.Missing(LayoutWords.NoPage) : await go();

    private static async Task<IResult> Post(
        Asked asked,
        BookSection section,
        Func<JsonObject, string, JsonNode?> stands,
        Func<JsonObject, IReadOnlyDictionary<string, JsonNode?>, IFormCollection, BookForm> fill,
        Func<Asked, Sent?, IResult> show,
        string done
    )
    {
        if (await Forms.Read(asked.Context, asked.Forms) is not { } form)
        {
            return show(asked, new(new BookFields(f => stands(asked.Whole, f)), new([Stale], [], null), null, null));
        }

        var fields = BookFields.Read(form, f => stands(asked.Whole, f));
        var filled = fill(asked.Whole, fields.Values(), form);
        var edit = filled.Wrong is { } wrong
            ? new BookEdit([wrong], [], null)
            : new EditBook(asked.Workshop).Keep(
                section,
                filled.Wished,
                form["stand"].ToString(),
                BookPosts.IsSure(form, filled.Wished),
                Visitor.Of(asked.Context).Name
            );
        if (edit.Kept)
        {
            return Results.Redirect(done);
        }

        fields.Tell(edit.Faults, filled.FieldOf);
        if (edit.Moved is not null)
        {
            fields.HasMoved();
        }

        return show(asked, new(fields, edit, filled.Wished, form));
    }

    private static Fault Stale => new(LayoutWords.NotHere, Layout.Forms.Stale, "");

    private static RazorComponentResult Prices(Asked asked, Sent? sent) =>
        Pages.Of<PricesForm>(
            new
            {
                View = View(asked, sent, BookSection.Prices, f => Stands(asked.Whole, f)),
                Currency = (string)asked.Whole["prices"]!["currency"]!,
                Blanks = Math.Max(
                    ((JsonObject)asked.Whole["prices"]!["blanks"]!).Count + BookForm.NewRows,
                    Rows(sent, "/blanks/")
                ),
            },
            Status(sent)
        );

    private static RazorComponentResult Machines(Asked asked, Sent? sent) =>
        Pages.Of<MachinesForm>(
            new
            {
                View = View(asked, sent, BookSection.Machines, f => Stands(asked.Whole, f)),
                Presses = Math.Max(((JsonArray)asked.Whole["presses"]!).Count + 1, Rows(sent, "/presses/")),
                Sheets = Math.Max(((JsonArray)asked.Whole["sheets"]!).Count + 1, Rows(sent, "/sheets/")),
            },
            Status(sent)
        );

    private static RazorComponentResult Process(Asked asked, string id, Sent? sent)
    {
        var processes = new ReadBook(asked.Workshop).Run().Processes;
        var at = processes.ToList().FindIndex(p => p.Id == id);
        return at < 0
            ? Pages.Missing(LayoutWords.NoPage)
            : Pages.Of<ProcessForm>(
                new
                {
                    View = View(asked, sent, BookSection.Recipes, f => Stands(asked.Whole, f)),
                    Process = processes[at],
                    At = at,
                },
                Status(sent)
            );
    }

    private static RazorComponentResult Recipe(Asked asked, string material, Sent? sent) =>
        Pressing(asked.Workshop, material) is { } pressing
            ? Pages.Of<RecipeForm>(
                new
                {
                    View = View(asked, sent, BookSection.Recipes, f => StandsInRecipe(asked.Whole, material, f)),
                    Pressing = pressing,
                },
                Status(sent)
            )
            : Pages.Missing(LayoutWords.NoPage);

    private static RazorComponentResult Trial(Asked asked, string material, Sent? sent) =>
        Small(asked, sent, material, "trial", BookWords.TrialOf, "trials", null);

    private static RazorComponentResult Retire(Asked asked, string material, Sent? sent) =>
        Small(asked, sent, material, "retire", BookWords.RetireOf, "retire", BookWords.Retire);

    private static RazorComponentResult Small(
        Asked asked,
        Sent? sent,
        string material,
        string kind,
        string title,
        string way,
        string? keep
    )
    {
        if (Pressing(asked.Workshop, material) is not { } pressing)
        {
            return Pages.Missing(LayoutWords.NoPage);
        }

        var press = pressing.Process.Steps.First(s => s.Kind == StepKind.Press);
        return Pages.Of<SmallForms>(
            new
            {
                View = View(asked, sent, BookSection.Recipes, _ => null),
                Book = new ReadBook(asked.Workshop).Run(),
                Title = Say.With(title, Say.Data(pressing.Material.Name)),
                Action = $"/workshop/{way}/{Say.Step(material)}",
                Back = $"/recipes/{Say.Step(material)}",
                Kind = kind,
                KeepWords = keep,
                What = sent?.Form?["what"].ToString(),
                Falls = RecipeFigures.Of(press),
            },
            Status(sent)
        );
    }

    private static RazorComponentResult NewMaterial(Asked asked, Sent? sent) =>
        Pages.Of<SmallForms>(
            new
            {
                View = View(asked, sent, BookSection.Recipes, _ => null),
                Book = new ReadBook(asked.Workshop).Run(),
                Title = BookWords.NewMaterial,
                Action = "/workshop/materials/new",
                Back = "/recipes",
                Kind = "new",
                Like = sent?.Form?["like"].ToString(),
            },
            Status(sent)
        );

    private static BookView View(Asked asked, Sent? sent, BookSection section, Func<string, JsonNode?> stands) =>
        BookPosts.View(
            asked.Context,
            asked.Forms,
            sent?.Fields ?? new BookFields(stands),
            // Who was late sees what stands now, and keeps on that.
            sent is { Edit.Moved: null, Form: { } form }
                ? form["stand"].ToString()
                : new EditBook(asked.Workshop).Stand(section),
            sent?.Edit,
            sent?.Wished
        );

    private static int Status(Sent? sent) => sent is null ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest;

    private static int Rows(Sent? sent, string list) =>
        sent?.Form?.Keys.Where(k => k.StartsWith(list, StringComparison.Ordinal))
            .Select(k => int.TryParse(k.Split('/')[2], CultureInfo.InvariantCulture, out var row) ? row + 1 : 0)
            .Where(r => r <= 500)
            .DefaultIfEmpty()
            .Max()
        ?? 0;

    private static Pressing? Pressing(OpenedWorkshop workshop, string material)
    {
        var book = new ReadBook(workshop).Run();
        return book.Materials.Any(m => m.Id == material) ? Pressings.For(book, material) : null;
    }

    private static JsonNode? Stands(JsonObject whole, string field) => BookForm.Stands(whole, field);

    private static JsonNode? StandsInRecipe(JsonObject whole, string material, string field) =>
        BookForm.StandsInRecipe(whole, material, field);

    /// <summary>Who asks, and what stands while the answer is made.</summary>
    private sealed record Asked(HttpContext Context, IAntiforgery Forms, OpenedWorkshop Workshop)
    {
        public JsonObject Whole { get; } = new EditBook(Workshop).Whole();
    }

    /// <summary>A form that was sent and not kept.</summary>
    private sealed record Sent(BookFields Fields, BookEdit Edit, JsonObject? Wished, IFormCollection? Form);
}
