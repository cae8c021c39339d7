using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Orders;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>The workshop file as a whole: earlier versions, taken out and brought in. All of it lies under the owner's part of the app.</summary>
internal static class BookRoutes
{
    private const int MostFileBytes = 4 * 1024 * 1024;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/workshop/versions/{part}", Versions);
        app.MapGet("/workshop/versions/{part}/{number:long}", Version);
        app.MapPost("/workshop/versions/{part}/{number:long}", TakeUp);
        app.MapGet("/workshop/book", (HttpContext c, IAntiforgery f) => File(c, f, null, null));
        app.MapGet("/workshop/book/file", TakeOut);
        app.MapPost("/workshop/book", LookAtFile);
        app.MapPost("/workshop/book/take", TakeIn);
        app.MapPost("/workshop/orders/{name}/book", TakeUpPresent);
    }

    private static bool Part(string part, out BookSection section) =>
        Enum.TryParse(part, ignoreCase: true, out section) && Enum.IsDefined(section) && !char.IsDigit(part[0]);

    private static RazorComponentResult Versions(string part, OpenedWorkshop workshop) =>
        Part(part, out var section)
            ? Pages.Of<VersionsPage>(
                new
                {
                    Part = part.ToLowerInvariant(),
                    Versions = (IReadOnlyList<BookVersion>)new BookVersions(workshop).List(section),
                    Told = (IReadOnlyList<(BookVersion, ImmutableArray<BookDifference>)>)
                        new BookVersions(workshop).Told(section),
                }
            )
            : Pages.Missing(LayoutWords.NoPage);

    private static RazorComponentResult Version(
        string part,
        long number,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    ) => Look(part, number, context, forms, workshop, null);

    private static RazorComponentResult Look(
        string part,
        long number,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        BookEdit? edit
    )
    {
        var versions = new BookVersions(workshop);
        if (!Part(part, out var section) || versions.Whole(section, number) is not { } then)
        {
            return Pages.Missing(LayoutWords.NoPage);
        }

        var view = BookPosts.View(
            context,
            forms,
            new BookFields(_ => null),
            new EditBook(workshop).Stand(section),
            edit,
            then
        ) with
        {
            Action = $"/workshop/versions/{part.ToLowerInvariant()}/{number.ToString(CultureInfo.InvariantCulture)}",
            Back = $"/workshop/versions/{part.ToLowerInvariant()}",
            KeepWords = BookWords.TakeUp,
        };
        return Pages.Of<VersionsPage>(
            new
            {
                Part = part.ToLowerInvariant(),
                Versions = (IReadOnlyList<BookVersion>)versions.List(section),
                Looked = (long?)number,
                Differences = (IReadOnlyList<BookDifference>)versions.Differences(section, number)!.Value,
                View = view,
            },
            edit is not null
        );
    }

    private static async Task<IResult> TakeUp(
        string part,
        long number,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Look(part, number, context, forms, workshop, null);
        }

        var versions = new BookVersions(workshop);
        if (!Part(part, out var section) || versions.Whole(section, number) is not { } then)
        {
            return Pages.Missing(LayoutWords.NoPage);
        }

        var edit = versions.TakeUp(
            section,
            number,
            form["stand"].ToString(),
            BookPosts.IsSure(form, then),
            Visitor.Of(context).Name
        )!;
        return edit.Kept
            ? Results.Redirect($"/workshop/versions/{part}")
            : Look(part, number, context, forms, workshop, edit);
    }

    private static RazorComponentResult File(HttpContext context, IAntiforgery forms, TakenIn? brought, string? fault)
    {
        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<BookFilePage>(
            new
            {
                Brought = brought,
                Fault = fault,
                Kept = context.Request.Query["kept"] == "yes",
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
        );
    }

    private static IResult TakeOut(OpenedWorkshop workshop) =>
        Results.Bytes(
            new EditBook(workshop).File(),
            "application/json",
            string.Create(CultureInfo.InvariantCulture, $"workshop-{workshop.Now:yyyy-MM-dd-HHmm}.json")
        );

    private static async Task<IResult> LookAtFile(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return File(context, forms, null, Forms.Stale);
        }

        if (form.Files is not [{ Length: > 0 and <= MostFileBytes } sent, ..])
        {
            return File(context, forms, null, BookWords.ChooseFile);
        }

        using var bytes = new MemoryStream();
        await sent.CopyToAsync(bytes, context.RequestAborted);
        var looked = new EditBook(workshop).Look(bytes.ToArray(), sent.FileName);
        return looked.Ok
            ? File(context, forms, looked.Value, null)
            : File(context, forms, null, Say.Fault(looked.Fault));
    }

    private static async Task<IResult> TakeIn(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return File(context, forms, null, Forms.Stale);
        }

        var edit = new EditBook(workshop);
        var text = form["text"].ToString();
        // The cautions of what was sent are asked again: what a browser hides may still be another.
        var looked = edit.Look(System.Text.Encoding.UTF8.GetBytes(text), BookWords.FileTitle);
        if (!looked.Ok)
        {
            return File(context, forms, null, Say.Fault(looked.Fault));
        }

        if (looked.Value.Cautions.Length > 0 && form["sure"] != "yes")
        {
            return File(context, forms, looked.Value, BookWords.MakersFirst);
        }

        return edit.TakeIn(text, form["stand"].ToString(), Visitor.Of(context).Name) switch
        {
            { Kept: true } => Results.Redirect("/workshop/book?kept=yes"),
            { Moved: not null } => File(context, forms, looked.Value, $"{BookWords.MovedTitle} {BookWords.MovedFile}"),
            var refused => File(context, forms, null, string.Join(" ", refused.Faults.Select(Say.Fault))),
        };
    }

    private static async Task<IResult> TakeUpPresent(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        var order = Pages.Name(name);
        if (await Forms.Read(context, forms) is null)
        {
            return OrderRoutes.Show(order, workshop, context, Forms.Stale);
        }

        var who = Visitor.Of(context).Name;
        Outcome<MadeJob> made = await Task.Run(
            () => new PresentBook(workshop).TakeUp(order, who, MakeFromFolder.PatientSeconds, context.RequestAborted),
            context.RequestAborted
        );
        return made.Ok
            ? Results.Redirect($"/orders/{Say.Step(order)}")
            : OrderRoutes.Show(order, workshop, context, Say.Fault(made.Fault));
    }
}
