using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Press;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>Recipes, processes, materials and wash trials as forms. All of it lies under the owner's part of the app.</summary>
internal static class EditRecipeRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        FormFrame.Map(app, "/workshop/processes/{name}", Process);
        FormFrame.Map(app, "/workshop/new-process", NewProcess);
        FormFrame.Map(app, "/workshop/recipes/{name}", Recipe);
        FormFrame.Map(app, "/workshop/trials/{name}", NewTrial);
        FormFrame.Map(app, "/workshop/washed/{name}", Trial);
        FormFrame.Map(app, "/workshop/retire/{name}", Retire);
        FormFrame.Map(app, "/workshop/materials/new", NewMaterial);
        FormFrame.Map(app, "/workshop/material/{name}", Material);
    }

    private static FormOf? Process(Asked asked) =>
        ProcessFields.Of(asked.Whole, asked.Name) is { } fields
            ? New(
                Say.With(BookWords.ChangeProcess, Say.Data(asked.Book.Processes[fields.At].Name)),
                $"/workshop/processes/{Say.Step(asked.Name)}"
            ) with
            {
                Stands = fields.Stands,
                Fill = (values, _) => fields.Fill(values),
                Page = (view, sent) =>
                    Pages.Of<ProcessForm>(
                        new
                        {
                            View = view,
                            Steps = FormFrame.Rows(fields.Steps.Count, BookForm.NewRows, sent, "/process/steps/"),
                        }
                    ),
            }
            : null;

    private static FormOf NewProcess(Asked asked)
    {
        var like = asked.Context.Request.Query["like"].ToString();
        var begun = Coldpeel.Desk.Shelf.Book.NewProcess.Begin(asked.Whole, like);
        return New(
            BookWords.NewProcess,
            like.Length == 0 ? "/workshop/new-process" : $"/workshop/new-process?like={Say.Step(like)}"
        ) with
        {
            Stands = begun.Stands,
            Fill = (values, _) => begun.Fill(values),
            Page = (view, sent) =>
                Pages.Of<NewProcessForm>(
                    new
                    {
                        View = view,
                        asked.Book,
                        Like = like,
                        Steps = FormFrame.Rows(begun.Steps.Count, BookForm.NewRows, sent, "/process/steps/"),
                    }
                ),
        };
    }

    private static FormOf? Recipe(Asked asked) =>
        OfMaterial(asked, "recipes", BookWords.ChangeRecipe) is { } form
            ? form with
            {
                Stands = field => RecipeFields.Stands(asked.Whole, asked.Name, field),
                Fill = (values, _) => RecipeFields.Fill(asked.Whole, asked.Name, values),
                Page = (view, _) =>
                    Pages.Of<RecipeForm>(new { View = view, Pressing = Pressings.For(asked.Book, asked.Name) }),
            }
            : null;

    private static FormOf? NewTrial(Asked asked) =>
        OfMaterial(asked, "trials", BookWords.TrialOf) is { } form
            ? form with
            {
                Fill = (values, _) => RecipeFields.WithTrial(asked.Whole, asked.Name, values),
                Page = (view, _) => Pages.Of<TrialForm>(new { View = view }),
            }
            : null;

    private static FormOf? Trial(Asked asked)
    {
        if (EntryFields.Trial(asked.Whole, asked.Name) is not { } fields)
        {
            return null;
        }

        var material = (string)fields.Stands("/trial/material")!;
        return New(
            Say.With(BookWords.TrialOf, Say.Data(asked.Book.Materials.First(m => m.Id == material).Name)),
            $"/workshop/washed/{Say.Step(asked.Name)}"
        ) with
        {
            Stands = fields.Stands,
            // A trial has no name: where another one was taken out, its number is the next one's.
            IsOther = sent => sent["of"] != fields.Mark,
            Fill = (values, sent) => EditRoutes.IsGone(sent) ? fields.Without() : fields.Fill(values),
            Back = $"/recipes/{Say.Step(material)}",
            Done = $"/recipes/{Say.Step(material)}?kept=yes",
            Page = (view, sent) =>
                Pages.Of<TrialForm>(
                    new
                    {
                        View = view,
                        Stands = true,
                        Of = fields.Mark,
                        Gone = EditRoutes.IsGone(sent),
                    }
                ),
        };
    }

    private static FormOf? Retire(Asked asked) =>
        OfMaterial(asked, "retire", BookWords.RetireOf) is { } form
            ? form with
            {
                Fill = (_, sent) => RecipeFields.Without(asked.Whole, asked.Name, sent["what"] == "material"),
                Done = "/recipes",
                KeepWords = BookWords.Retire,
                Page = (view, sent) =>
                    Pages.Of<RetireForm>(
                        new
                        {
                            View = view,
                            What = sent?["what"].ToString(),
                            Falls = RecipeFigures.Of(
                                Pressings.For(asked.Book, asked.Name).Process.Steps.First(s => s.Kind == StepKind.Press)
                            ),
                        }
                    ),
            }
            : null;

    private static FormOf NewMaterial(Asked asked) =>
        New(BookWords.NewMaterial, "/workshop/materials/new") with
        {
            Fill = (values, sent) => RecipeFields.WithMaterial(asked.Whole, sent["like"].ToString(), values),
            Page = (view, sent) =>
                Pages.Of<NewMaterialForm>(
                    new
                    {
                        View = view,
                        asked.Book,
                        Like = sent?["like"].ToString(),
                    }
                ),
        };

    private static FormOf? Material(Asked asked) =>
        OfMaterial(asked, "material", BookWords.ChangeMaterial) is { } form
        && EntryFields.Material(asked.Whole, asked.Name) is { } fields
            ? form with
            {
                Stands = fields.Stands,
                Fill = (values, _) => fields.Fill(values),
                Page = (view, _) => Pages.Of<MaterialForm>(new { View = view, asked.Book }),
            }
            : null;

    private static FormOf? OfMaterial(Asked asked, string way, string title)
    {
        if (asked.Book.Materials.FirstOrDefault(m => m.Id == asked.Name) is not { } material)
        {
            return null;
        }

        var page = $"/recipes/{Say.Step(asked.Name)}";
        return New(Say.With(title, Say.Data(material.Name)), $"/workshop/{way}/{Say.Step(asked.Name)}") with
        {
            Back = page,
            BackWords = Say.Data(material.Name),
            Done = page + "?kept=yes",
        };
    }

    private static FormOf New(string title, string action) => FormOf.Begun(BookSection.Recipes, title, action);
}
